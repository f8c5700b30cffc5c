# Writes a C++ source file that holds other files as bytes. Called by EmbedFiles.cmake with source, function, header and files.
string (REPLACE "|" ";" files "${files}")
set (arrays "")
set (entries "")
set (index 0)

foreach (file IN LISTS files)
    get_filename_component (name ${file} NAME_WLE)
    file (READ ${file} bytes HEX)
    string (REGEX REPLACE "(..)" "0x\\1," bytes "${bytes}")
    string (APPEND arrays "const unsigned char file${index}[] = { ${bytes} 0x00 };\n")
    string (APPEND entries "        { \"${name}\", { reinterpret_cast<const char*> (file${index}), sizeof (file${index}) - 1 } },\n")
    math (EXPR index "${index} + 1")
endforeach()

file (WRITE ${source} "// Written by cmake/WriteEmbeddedFiles.cmake.
#include \"${header}\"

namespace
{
${arrays}} // namespace

std::span<const files::EmbeddedFile> ${function}()
{
    static const files::EmbeddedFile list[] = {
${entries}    };
    return list;
}
")
