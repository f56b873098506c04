#!/usr/bin/env bash
# Fuzzes every reader, starting from the samples, the shipped rates and the texts of an offer, for
# some seconds in all (default 60), in the folder of a build (default build-sanitize, made when it is
# not there). Needs clang 14 and libclang-rt-14-dev. What breaks a reader is kept in build-fuzz/ as
# crash-…, timeout-… or oom-…; build-sanitize/tests/fuzz/fuzz FILE runs it again.
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-60}; tree=${2:-build-sanitize}; work=build-fuzz; jobs=${JOBS:-$(nproc)}
rm -rf $work/seeds; mkdir -p $work/seeds $work/corpus
cp samples/*.yaml samples/*.csv templates/new/*.yaml templates/offer/* $work/seeds/
# fuzz.cpp reads as rates what begins with a blank, and as words of an offer what begins with '!'.
for f in rates/*.yaml rates/*/*.yaml samples/shop/*.yaml templates/new/shop.yaml; do
  { printf ' \n'; head -c 3800 "$f"; } > "$work/seeds/rates-${f//\//-}"
done
for f in templates/offer/*; do { printf '!!map\n'; cat "$f"; } > "$work/seeds/offer-$(basename "$f")"; done
printf '%s' '{"unit":"mm","product":"p","faces":9,"solids":[[30,30,60]],"verdict":"turned","solid":1,"turned_share":0.9,"volume":9000,"outline_volume":9100,"length":60,"outside":[{"from":0,"to":3,"diameter_from":16,"diameter_to":18,"form":"arc","radius":5,"centre":{"z":3,"r":4},"bulges_out":true},{"from":3,"to":50,"diameter_from":18,"diameter_to":18,"form":"line"},{"from":50,"to":60,"diameter_from":27.7,"diameter_to":27.7,"form":"envelope"}],"bore":[{"from":0,"to":20,"diameter_from":6.8,"diameter_to":6.8,"form":"line"},{"from":20,"to":22,"diameter_from":6.8,"diameter_to":0,"form":"line"}],"recesses":[{"from":57,"to":60,"inner":10,"outer":16}],"features":[{"kind":"hexagon","count":1,"from":50,"to":60,"sizes":{"across":24}},{"kind":"axial hole","count":4,"from":0,"to":9,"sizes":{"diameter":5,"pitch circle":12,"depth":9}}]}' > $work/seeds/model.json
printf '%s' '<w><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c t="s"><v>1</v></c><c t="inlineStr"><is><t>outside</t></is></c></row><row r="2"><c t="str"><f>A1</f><v>A</v></c><c t="inlineStr"><is><r><t>C45</t></r></is></c><c t="str"><v>30 x20</v></c></row></sheetData><mergeCells><mergeCell ref="A2:B2"/></mergeCells></w>' > $work/seeds/sheet.xml
launcher=""; command -v ccache >/dev/null && launcher=-DCMAKE_CXX_COMPILER_LAUNCHER=ccache
source tests/fuzz/options.sh
cmake -S . -B "$tree" -G Ninja $launcher "${fuzz_options[@]}" >/dev/null
ninja -C "$tree" -j "$jobs" fuzz >$work/build.log || { tail -n 40 $work/build.log; exit 1; }
"$tree"/tests/fuzz/fuzz -max_total_time="$seconds" -max_len=4000 -timeout=20 -rss_limit_mb=4096 -verbosity=0 \
  -print_funcs=0 -print_final_stats=1 -artifact_prefix=$work/ $work/corpus $work/seeds >$work/run.log 2>&1 ||
  { tail -n 80 $work/run.log; exit 1; }
echo "fuzzed for $seconds s: $(sed -n 's/^stat::number_of_executed_units: *//p' $work/run.log) inputs, none breaks a reader"
