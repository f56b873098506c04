#!/usr/bin/env bash
# Fuzzes the readers for some seconds (default 60), starting from the samples. Needs clang 14.
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-60}; work=build-fuzz; mkdir -p $work/corpus
cp samples/*.yaml samples/*.csv templates/new/part.yaml $work/corpus/
cp samples/shop/shop.yaml $work/corpus/rates.yaml
cp templates/offer/* $work/corpus/
printf '%s' '<w><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="inlineStr"><is><t>outside</t></is></c></row><row r="2"><c t="str"><f>A1</f><v>A</v></c><c t="inlineStr"><is><r><t>C45</t></r></is></c><c t="str"><v>30 x20</v></c></row></sheetData><mergeCells><mergeCell ref="A2:B2"/></mergeCells></w>' > $work/corpus/sheet.xml
cmake -S . -B $work/tree -G Ninja -DCMAKE_CXX_COMPILER=clang++-14 -DTURNWRIGHT_TESTS=OFF -DTURNWRIGHT_STRICT=OFF \
  -DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_CXX_FLAGS="-fsanitize=address,undefined,fuzzer-no-link" >/dev/null
ninja -C $work/tree turnwright-output >/dev/null
lib=$work/tree/src
clang++-14 -std=c++20 -g -O1 -fsanitize=fuzzer,address,undefined -Iinclude tests/fuzz/fuzz.cpp \
  $lib/libturnwright-output.a $lib/libturnwright-week.a $lib/libturnwright-compare.a $lib/libturnwright-estimate.a $lib/libturnwright-route.a $lib/libturnwright-shop.a $lib/libturnwright-part.a $lib/libturnwright-figure.a \
  $lib/libturnwright-document.a $lib/libturnwright-quantity.a -lyaml-cpp -lcsv -lxlsxwriter -lminizip -lpugixml -lz -o $work/fuzz
$work/fuzz -max_total_time="$seconds" -max_len=4000 -timeout=10 $work/corpus
