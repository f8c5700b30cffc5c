# Builds files into a target. `function`, declared in the header, then returns them in the order of their names.
#   snarewright_embed_files (<target> <namespace::function> HEADER <header> FILES <file>...)
function (snarewright_embed_files target function)
    cmake_parse_arguments (PARSE_ARGV 2 arg "" "HEADER" "FILES")
    list (SORT arg_FILES)
    string (REPLACE "::" "_" name ${function})
    set (source ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp)
    string (REPLACE ";" "|" files "${arg_FILES}")
    add_custom_command (OUTPUT ${source}
        COMMAND ${CMAKE_COMMAND} -D source=${source} -D function=${function} -D header=${arg_HEADER} -D "files=${files}"
            -P ${PROJECT_SOURCE_DIR}/cmake/WriteEmbeddedFiles.cmake
        DEPENDS ${arg_FILES} ${PROJECT_SOURCE_DIR}/cmake/WriteEmbeddedFiles.cmake
        COMMENT "Embedding files of ${function}()"
        VERBATIM)
    target_sources (${target} PRIVATE ${source})
    # Nothing to optimise or to warn of, and a large array makes both slow.
    set_source_files_properties (${source} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON SKIP_PRECOMPILE_HEADERS ON)
endfunction()
