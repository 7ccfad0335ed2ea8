# cpack in a release tree makes the .deb: the program, its data and its documents.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_VENDOR "The Tideover authors")
set(CPACK_PACKAGE_CONTACT "The Tideover authors <tideover@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "battery-backed DC supplies, judged before they are built")
set(CPACK_PACKAGE_DESCRIPTION
"Tideover reads the build sheet of a small battery-backed DC supply: devices,
adapters, pack, protection board, converters, relays, fuses and every lead.
It says whether the supply carries its devices through a mains outage and for
how long, what sags, heats, trips or is undersized, and what to change.
.
It is a tool for work below 60 V DC. Lithium cells can burn: local codes and
licensed practice come first.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PACKAGE_DIRECTORY "${PROJECT_BINARY_DIR}/package")
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)

set(CPACK_COMPONENTS_ALL program)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME tideover)
set(CPACK_DEBIAN_PROGRAM_FILE_NAME DEB-DEFAULT)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "${CPACK_PACKAGE_DESCRIPTION}")
set(CPACK_DEBIAN_PACKAGE_SECTION electronics)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
include(CPack)
