# SPDX-License-Identifier: GPL-3.0-or-later
# How the programs are packaged on each system. Included where rillmark-app is made, because Qt reads the properties of
# the telephone systems when that folder ends.
set(package_folder ${CMAKE_CURRENT_LIST_DIR})

if(ANDROID)
    set_target_properties(rillmark-app PROPERTIES
        QT_ANDROID_PACKAGE_SOURCE_DIR ${package_folder}/android
        QT_ANDROID_MIN_SDK_VERSION 23
        QT_ANDROID_VERSION_NAME ${PROJECT_VERSION}
        QT_ANDROID_VERSION_CODE 1)
elseif(IOS)
    set_target_properties(rillmark-app PROPERTIES
        MACOSX_BUNDLE_INFO_PLIST ${package_folder}/ios/Info.plist
        MACOSX_BUNDLE_BUNDLE_NAME Rillmark
        MACOSX_BUNDLE_GUI_IDENTIFIER rillmark.field
        MACOSX_BUNDLE_SHORT_VERSION_STRING ${PROJECT_VERSION}
        MACOSX_BUNDLE_BUNDLE_VERSION ${PROJECT_VERSION})
else()
    include(GNUInstallDirs)
    foreach(program rillmark-app rillmark-desk)
        if(TARGET ${program})
            install(TARGETS ${program} RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
        endif()
    endforeach()
    if(TARGET rillmark-desk)
        install(FILES ${CMAKE_BINARY_DIR}/bin/rillmark-desk.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
        install(FILES ${CMAKE_BINARY_DIR}/bin/rillmark-desk.bash RENAME rillmark-desk
            DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
    endif()
    # No file type is claimed: a GeoPackage belongs to whatever program the person opens it with.
    install(FILES ${package_folder}/linux/rillmark.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
    install(FILES ${CMAKE_SOURCE_DIR}/assets/icons/rillmark.svg
        DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
endif()
