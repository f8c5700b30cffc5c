#pragma once

#include "Lesson.h"

#include <optional>
#include <string>
#include <vector>

namespace sheets
{

/** A question with answers to choose from. */
struct Question
{
    std::string text;
    std::vector<std::string> answers;

    /** Index of the right answer when step `to` is heard after step `from`, row by row of `from`; -1 where the question is not
       asked, since the difference is too small to judge or there are two answers. A question about one sound alone has the same
       answer in every row. */
    std::vector<int> right;
    bool isAboutOneSound = false;
};

/** The questions about a lesson's steps heard in any order. Those that have no or always the same answer are left out. */
std::vector<Question> questionsAbout (const std::vector<PlayedStep>&);

} // namespace sheets
