#pragma once

#include "Files/Json.h"

#include <string>
#include <vector>

namespace reports
{

/** Sentences as a JSON list. */
inline files::Json listOf (const std::vector<std::string>& sentences)
{
    files::Json list = files::Json::array();

    for (const auto& sentence : sentences)
        list.emplace_back (sentence);

    return list;
}

} // namespace reports
