#pragma once

#include "Files/Json.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

/** The drum for a browser: requests and reports as JSON, with the names of the program's. instrument.js lists the requests. */
namespace web
{

/** A report, and numbers that would be wasteful as text. */
struct Answer
{
    files::Json report;
    std::vector<std::byte> bytes{};
};

/** Answers a request.
    @param samples  sound, where the request is about some
    @throws modal::InputError naming the field, the value and what is allowed */
Answer answer (const std::string& name, const files::Json& request, std::span<const float> samples = {});

/** An error as JSON: `message`, and, for an input error, `field`, `value` and `allowed`. */
files::Json errorJson (const std::exception&);

} // namespace web
