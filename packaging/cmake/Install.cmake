# Where an installed Evenfall lies, and its Debian package (cpack -G DEB).
if(EVENFALL_UI)
    include(GNUInstallDirs)
    install(TARGETS evenfall RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
    install(DIRECTORY resources DESTINATION ${CMAKE_INSTALL_DATADIR}/evenfall)
    install(DIRECTORY sample_data/ DESTINATION ${CMAKE_INSTALL_DATADIR}/evenfall/sample_data
            FILES_MATCHING PATTERN "*.json" PATTERN "*.csv")
    install(FILES packaging/evenfall.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
    install(FILES resources/icons/evenfall.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
    install(FILES packaging/evenfall.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
    install(FILES packaging/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright)

    set(CPACK_GENERATOR DEB)
    set(CPACK_PACKAGE_CONTACT "Evenfall <evenfall@localhost>")
    set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "Offline workbench for supervised tapering")
    set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
    set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core, fonts-inter, tzdata")
    include(CPack)
endif()
