# What is installed besides programs and plugins, and how cpack makes a Debian package and a zip of it.

if (SNAREWRIGHT_PLUGIN)
    install (FILES packaging/snarewright.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
    install (FILES assets/icon.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps RENAME snarewright.svg)
endif()

if (SNAREWRIGHT_TOOL AND UNIX)
    set (manual ${CMAKE_CURRENT_BINARY_DIR}/snarewright.1)
    add_custom_command (OUTPUT ${manual}
        COMMAND sh ${PROJECT_SOURCE_DIR}/packaging/write-manual $<TARGET_FILE:snarewright> > ${manual}
        DEPENDS snarewright packaging/write-manual
        COMMENT "Writing the manual page"
        VERBATIM)
    add_custom_target (snarewright_manual ALL DEPENDS ${manual})
    install (FILES ${manual} DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
    install (FILES packaging/completion.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME snarewright)
endif()

# The drum for a browser, if Source/Web/build made it before.
if (SNAREWRIGHT_TOOL AND EXISTS ${SNAREWRIGHT_WEB_PAGE})
    install (FILES ${SNAREWRIGHT_WEB_PAGE} DESTINATION ${CMAKE_INSTALL_DATADIR}/snarewright)
endif()

install (FILES packaging/copyright LICENSE README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})

set (CPACK_GENERATOR ZIP)
if (CMAKE_SYSTEM_NAME STREQUAL "Linux")
    list (APPEND CPACK_GENERATOR DEB)
endif()
set (CPACK_PACKAGE_NAME snarewright)
set (CPACK_PACKAGE_CONTACT "The Snarewright project <snarewright@snarewright.invalid>")
set (CPACK_PACKAGE_DESCRIPTION_SUMMARY ${PROJECT_DESCRIPTION})
set (CPACK_RESOURCE_FILE_LICENSE ${PROJECT_SOURCE_DIR}/LICENSE)
set (CPACK_STRIP_FILES ON)
set (CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set (CPACK_DEBIAN_PACKAGE_SECTION sound)
set (CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON) # finds the packages that the programs are linked with
if (SNAREWRIGHT_PLUGIN)
    # JUCE loads these at run time.
    set (CPACK_DEBIAN_PACKAGE_DEPENDS "libx11-6, libxext6, libxcursor1, libxinerama1, libxrandr2, libfontconfig1")
endif()
include (CPack)
