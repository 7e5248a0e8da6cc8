// Package fit says what a pressed or bonded sleeve does to the bore it repairs:
// contact pressure, stresses, how far the bore closes, what it holds, and how it
// goes together.
//
// Everything is a pure function, in float64 mm, N, MPa, kelvin and °C; limits of
// size are those of iso286, exact, in nanometres.
package fit
