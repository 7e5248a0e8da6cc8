// Package iso286 gives the limits of size of ISO 286: reads a size with its
// classes as a drawing writes them, 50 H7/p6, and looks the limits up. Limits come
// from the standard's tables, never from its formulas and never from between two
// rows; they are exact, in nanometres.
package iso286
