// Package hub says what an uneven wall does to a hub that a sleeve presses on: how
// much higher the tension is at its thin side than in an even ring, and how far
// out of round the pressed bore comes. Shapes are bounded in closed form; figures by
// finite elements check them in the tests.
//
// Everything is a pure function in mm. Stresses are told over the contact pressure.
package hub
