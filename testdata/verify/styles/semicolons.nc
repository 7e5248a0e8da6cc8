%
O1204
;wg-77: idler bore, housing
;1 rough dia 83.000, 2 semi-finish dia 84.600, 3 finish dia 85.024
N10 G17 G21 G40 G49 G90 G94
N20 G54
;pass 1, rough
;set cutter to dia 83.000 mm
N30 M5
N40 M0
N50 G17 G21 G40 G49 G90 G94
N60 S150 M3
N70 G0 Z60. ; out
N80 G0 X0. Y0.
N90 G0 Z-365.
N100 G1 Z-431.5 F30.
;tip up, bar down
N110 M5
N120 M19
N130 G0 Y-1.
N140 G0 Z60. ; out
N150 G0 Y0.
;pass 2, semi-finish
;set cutter to dia 84.600 mm
;expect dia 84.585 to 84.601
N160 M5
N170 M0
N180 G17 G21 G40 G49 G90 G94
N190 S180 M3
N200 G0 Z60. ; out
N210 G0 X0. Y0.
N220 G0 Z-365.
N230 G1 Z-431.5 F18.
;tip up, bar down
N240 M5
N250 M19
N260 G0 Y-1.
N270 G0 Z60. ; out
N280 G0 Y0.
;measure the bore, both ends
;expect dia 84.585 to 84.601
N290 M5
N300 M0
;pass 3, finish
;set cutter to
;dia 85.024 mm
N310 M5
N320 M0
N330 G17 G21 G40 G49 G90 G94
N340 S180 M3
N350 G0 Z60. ; out
N360 G0 X0. Y0.
N370 G0 Z-365.
N380 G1 Z-431.5 F18.
;tip up, bar down
N390 M5
N400 M19
N410 G0 Y-1.
N420 G0 Z60. ; out
N430 G0 Y0.
;measure: limits dia 85.000 to 85.035 mm
N440 M5
N450 M0
N460 M5
N470 M30
%
