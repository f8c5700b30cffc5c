# JUCE, compiled once. A target that links one of its modules compiles that module anew and with our warnings, so nothing links them:
#   snarewright::juce_audio    what the program needs: numbers, files, audio formats
#   snarewright::juce_plugin   the rest that plugin, window and standalone instrument need
find_package (JUCE CONFIG REQUIRED)
find_package (PkgConfig REQUIRED)
pkg_check_modules (FLAC REQUIRED IMPORTED_TARGET flac)
find_package (ZLIB REQUIRED) # this and FLAC: packaged JUCE comes without its own copies

# Makes a static library of modules. Targets that link it see JUCE's headers as system headers. Modules that these depend on come from
# the libraries named.
#   snarewright_add_juce_library (<name> MODULES <module>... LIBRARIES <target>... DEFINITIONS <definition>...)
function (snarewright_add_juce_library name)
    cmake_parse_arguments (PARSE_ARGV 1 arg "" "" "MODULES;LIBRARIES;DEFINITIONS")
    add_library (snarewright_${name} STATIC)
    add_library (snarewright::${name} ALIAS snarewright_${name})

    foreach (module IN LISTS arg_MODULES)
        get_target_property (sources ${module} INTERFACE_JUCE_MODULE_SOURCES)
        get_target_property (libraries ${module} INTERFACE_LINK_LIBRARIES)
        list (FILTER libraries EXCLUDE REGEX "^juce_(audio|core|data|events|graphics|gui)") # modules
        target_sources (snarewright_${name} PRIVATE ${sources})
        target_link_libraries (snarewright_${name} PRIVATE ${libraries})
        target_compile_definitions (snarewright_${name} PUBLIC $<TARGET_PROPERTY:${module},INTERFACE_COMPILE_DEFINITIONS>)
        target_include_directories (snarewright_${name} PRIVATE $<TARGET_PROPERTY:${module},INTERFACE_INCLUDE_DIRECTORIES>)
    endforeach()

    target_link_libraries (snarewright_${name} PUBLIC ${arg_LIBRARIES} PRIVATE snarewright_quick)
    target_compile_definitions (snarewright_${name} PUBLIC ${arg_DEFINITIONS})
    target_compile_options (snarewright_${name} PRIVATE -w)
    set_target_properties (snarewright_${name} PROPERTIES UNITY_BUILD OFF) # its modules name things alike
    if (CMAKE_SYSTEM_NAME STREQUAL "Linux")
        # Whoever links it takes only the functions it uses.
        target_compile_options (snarewright_${name} PRIVATE -ffunction-sections -fdata-sections)
        target_link_options (snarewright_${name} INTERFACE -Wl,--gc-sections)
    endif()
    target_include_directories (snarewright_${name} SYSTEM INTERFACE $<TARGET_PROPERTY:snarewright_${name},INCLUDE_DIRECTORIES>)
endfunction()

snarewright_add_juce_library (juce_audio
    MODULES juce_core juce_audio_basics juce_audio_formats
    LIBRARIES PkgConfig::FLAC ZLIB::ZLIB
    DEFINITIONS
        JUCE_USE_CURL=0
        JUCE_USE_FLAC=1
        JUCE_INCLUDE_FLAC_CODE=0 # the system's library
        JUCE_USE_OGGVORBIS=0
        JUCE_USE_MP3AUDIOFORMAT=1)

if (SNAREWRIGHT_PLUGIN)
    find_package (PNG REQUIRED)
    find_package (JPEG REQUIRED)
    snarewright_add_juce_library (juce_plugin
        MODULES juce_events juce_data_structures juce_graphics juce_gui_basics juce_gui_extra juce_audio_devices juce_audio_processors
            juce_audio_utils
        LIBRARIES snarewright::juce_audio PNG::PNG JPEG::JPEG
        DEFINITIONS
            JUCE_DISPLAY_SPLASH_SCREEN=0
            JUCE_WEB_BROWSER=0
            JUCE_VST3_CAN_REPLACE_VST2=0
            JUCE_PLUGINHOST_VST3=1 # for the tests, which load the built plugin
            JUCE_PLUGINHOST_LV2=1)
endif()
