# How a build is told to be instrumented, for tests/run.sh and tests/fuzz/run.sh: one build serves both, and
# counts what the suite reaches.
# Warnings are the other compiler's own and stop nothing; gcc's stop the release build.
fuzz_options=(-DCMAKE_CXX_COMPILER=clang++-14 -DTURNWRIGHT_SANITIZE=ON -DTURNWRIGHT_COVERAGE=ON -DTURNWRIGHT_FUZZ=ON -DTURNWRIGHT_STRICT=OFF
  -DCMAKE_BUILD_TYPE=Debug "-DCMAKE_CXX_FLAGS_DEBUG=-O1 -gline-tables-only" -DCMAKE_CXX_FLAGS=-fsanitize=fuzzer-no-link)
