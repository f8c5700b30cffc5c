#pragma once

#include <clocale>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <locale>
#include <string>
#include <unistd.h>

namespace tests
{

/** While this lives, the process writes numbers as much of Europe does: 1.234,5.

    Streams take that from the global C++ locale; printf, strtod, stod and std::to_string from the C locale. No such C locale need
    be installed: glibc's `localedef` makes one here. Without that program only streams are held to it, and hasC() is false. */
class CommaLocale
{
public:
    CommaLocale()
    {
        std::filesystem::create_directories (folder);
        std::ofstream (folder / "comma.src") << "LC_NUMERIC\ndecimal_point \"<U002C>\"\nthousands_sep \"<U002E>\"\ngrouping 3;3\n"
                                                "END LC_NUMERIC\n";
        const auto target = (folder / "comma").string();
        const auto command = "localedef -c -i " + target + ".src " + target + " > /dev/null 2>&1";
        // It complains about the categories that are left out, and makes the locale all the same.
        [[maybe_unused]] const auto status = std::system (command.c_str());
        ::setenv ("LOCPATH", folder.c_str(), 1);
        made = std::setlocale (LC_NUMERIC, "comma") != nullptr;
        before = std::locale::global (std::locale (std::locale::classic(), new Comma));
    }

    ~CommaLocale()
    {
        std::locale::global (before);
        std::setlocale (LC_NUMERIC, "C");
        ::unsetenv ("LOCPATH");
        std::error_code ignored;
        std::filesystem::remove_all (folder, ignored);
    }

    bool hasC() const { return made; }

private:
    struct Comma : std::numpunct<char>
    {
        char do_decimal_point() const override { return ','; }
        char do_thousands_sep() const override { return '.'; }
        std::string do_grouping() const override { return "\3"; }
    };

    std::filesystem::path folder = std::filesystem::temp_directory_path() / ("comma-locale-" + std::to_string (::getpid()));
    std::locale before;
    bool made = false;
};

} // namespace tests
