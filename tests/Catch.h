#pragma once

// One include for both major versions of Catch2, which name their headers and Approx differently.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif
