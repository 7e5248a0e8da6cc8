%
o1204
(wg-77: idler bore, housing)
(1 rough dia 83.000, 2 semi-finish dia 84.600, 3 finish dia 85.024)
n10 g17 g21 g40 g49 g90 g94
n20 g54
(pass 1, rough)
(set cutter to dia 83.000 mm)
n30 m5
n40 m0
n50 g17 g21 g40 g49 g90 g94
n60 s150 m3
n70 g0 z60.
n80 g0 x0. y0.
n90 g0 z-365.
n100 g1 z-431.5 f30.
(tip up, bar down)
n110 m5
n120 m19
n130 g0 y-1.
n140 g0 z60.
n150 g0 y0.
(pass 2, semi-finish)
(set cutter to dia 84.600 mm)
(expect dia 84.585 to 84.601)
n160 m5
n170 m0
n180 g17 g21 g40 g49 g90 g94
n190 s180 m3
n200 g0 z60.
n210 g0 x0. y0.
n220 g0 z-365.
n230 g1 z-431.5 f18.
(tip up, bar down)
n240 m5
n250 m19
n260 g0 y-1.
n270 g0 z60.
n280 g0 y0.
(measure the bore, both ends)
(expect dia 84.585 to 84.601)
n290 m5
n300 m0
(pass 3, finish)
(set cutter to)
(dia 85.024 mm)
n310 m5
n320 m0
n330 g17 g21 g40 g49 g90 g94
n340 s180 m3
n350 g0 z60.
n360 g0 x0. y0.
n370 g0 z-365.
n380 g1 z-431.5 f18.
(tip up, bar down)
n390 m5
n400 m19
n410 g0 y-1.
n420 g0 z60.
n430 g0 y0.
(measure: limits dia 85.000 to 85.035 mm)
n440 m5
n450 m0
n460 m5
n470 m30
%
