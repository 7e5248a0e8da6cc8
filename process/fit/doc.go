// Package fit gives the limits of size of ISO 286 and says what a pressed or
// bonded sleeve does to the bore it repairs: contact pressure, stresses, how
// far the bore closes, what it holds, and how it goes together.
//
// Everything is a pure function. Limits come from the standard's tables, never
// from its formulas and never from between two rows. Physics is in float64 mm,
// N, MPa, kelvin and °C; limits of size are exact, in nanometres.
package fit
