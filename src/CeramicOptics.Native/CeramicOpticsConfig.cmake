# find_package(CeramicOptics CONFIG) gives CeramicOptics::ceramic_optics.
get_filename_component(_ceramic_optics "${CMAKE_CURRENT_LIST_DIR}/../../.." ABSOLUTE)

if(NOT TARGET CeramicOptics::ceramic_optics)
    add_library(CeramicOptics::ceramic_optics SHARED IMPORTED)
    set_target_properties(CeramicOptics::ceramic_optics PROPERTIES
        INTERFACE_INCLUDE_DIRECTORIES "${_ceramic_optics}/include")
    if(WIN32)
        set_target_properties(CeramicOptics::ceramic_optics PROPERTIES
            IMPORTED_LOCATION "${_ceramic_optics}/ceramic_optics.dll"
            IMPORTED_IMPLIB "${_ceramic_optics}/ceramic_optics.lib")
    elseif(APPLE)
        set_target_properties(CeramicOptics::ceramic_optics PROPERTIES
            IMPORTED_LOCATION "${_ceramic_optics}/libceramic_optics.dylib")
    else()
        set_target_properties(CeramicOptics::ceramic_optics PROPERTIES
            IMPORTED_LOCATION "${_ceramic_optics}/libceramic_optics.so"
            IMPORTED_SONAME "libceramic_optics.so")
    endif()
endif()

unset(_ceramic_optics)
