# Compiles SOURCE by COMPILER (a list: program and options) and passes when that is refused, in
# SOURCE itself, with words that match REASON. With an empty CASE it passes when it is accepted.
set(command ${COMPILER})
if(CASE)
  list(APPEND command -D${CASE})
endif()
execute_process(
  COMMAND ${command} -fsyntax-only ${SOURCE}
  RESULT_VARIABLE status
  OUTPUT_VARIABLE words
  ERROR_VARIABLE words)

if(NOT CASE)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "the control should have been accepted:\n${words}")
  endif()
  return()
endif()

if(status EQUAL 0)
  message(FATAL_ERROR "${CASE} was accepted")
endif()
get_filename_component(name ${SOURCE} NAME)
if(NOT words MATCHES "${name}:[0-9]+:[0-9]+: error: [^\n]*(${REASON})")
  message(FATAL_ERROR "${CASE} was refused, but for another reason than \"${REASON}\":\n${words}")
endif()
