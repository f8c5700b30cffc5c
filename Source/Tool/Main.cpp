#include "Command.h"
#include "OutputFile.h"

#include "Files/NearestWord.h"
#include "Modal/InputError.h"

#include <algorithm>
#include <iostream>
#include <new>

namespace
{

using namespace tool;

constexpr int statusOnOutputError = 1, statusOnBadInput = 2;

const std::vector<const Command*>& commands()
{
    static const std::vector<const Command*> all{ &predictCommand(), &compareCommand(), &modesCommand(),  &renderCommand(),
                                                  &listenCommand(),  &fitCommand(),     &planCommand(),   &sheetCommand(),
                                                  &lessonCommand(),  &atlasCommand(),   &findCommand(),
                                                  &presetsCommand() };
    return all;
}

std::string generalHelp()
{
    std::string text =
        "Snarewright predicts and plays a snare drum from its tuning.\n\nUsage: snarewright COMMAND [DRUM] [options]\n\n";

    for (const auto* command : commands())
    {
        const std::string name = command->name;
        text += "  " + name + std::string (12 - name.size(), ' ') + command->summary + "\n";
    }

    return text + "\n  snarewright COMMAND --help   all options of a command"
                  "\n  snarewright --version        the version\n"
                  "\nExample: snarewright predict --diameter 14in --depth 5.5in --batter 10mil --resonant 3mil"
                  "\n                             --lugs 8 --batter-note G#3 --interval P4\n"
                  "\nExit status: 0 success, 1 output could not be written, 2 bad input, 130 interrupted.\n";
}

const Command& commandNamed (const std::string& name)
{
    std::vector<std::string> names;

    for (const auto* command : commands())
    {
        if (name == command->name)
            return *command;

        names.emplace_back (command->name);
    }

    throw modal::InputError ("command", '"' + name + '"', files::listedFor (name, names));
}

void run (const std::vector<std::string>& words)
{
    const auto asksForHelp = [] (const std::string& word) { return word == "--help" || word == "-h"; };

    if (words.empty() || asksForHelp (words[0]) || words[0] == "help")
    {
        writeText ("-", words.size() > 1 ? commandNamed (words[1]).help() : generalHelp());
        return;
    }

    if (words[0] == "--version")
    {
        writeText ("-", "snarewright " SNAREWRIGHT_VERSION "\n");
        return;
    }

    const auto& command = commandNamed (words[0]);

    if (std::any_of (words.begin(), words.end(), asksForHelp))
        writeText ("-", command.help());
    else
        command.run ({ words.begin() + 1, words.end() }, command);
}

int report (const std::string& message, int status)
{
    std::cerr << "snarewright: " << message << "\n";
    return status;
}

} // namespace

int main (int argc, char** argv)
{
    try
    {
        installSignalHandlers();
        run ({ argv + std::min (argc, 1), argv + argc });
        return 0;
    }
    catch (const modal::InputError& e)
    {
        return report (e.what(), statusOnBadInput);
    }
    catch (const std::bad_alloc&)
    {
        return report ("out of memory", statusOnOutputError);
    }
    catch (const std::exception& e)
    {
        return report (e.what(), statusOnOutputError);
    }
}
