# find_package(halfsplit) gives halfsplit::halfsplit.
include(CMakeFindDependencyMacro)
find_dependency(nlohmann_json)
find_dependency(fmt)
if(@HALFSPLIT_KBL@)
  find_dependency(pugixml)
endif()
find_dependency(Threads)
include(${CMAKE_CURRENT_LIST_DIR}/halfsplitTargets.cmake)
