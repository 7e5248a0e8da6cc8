// Package source turns the bytes of a TOML file into values with their places,
// and holds what is found wrong with a file: every problem at its line and
// column, with what is allowed.
//
// Values come from one library and places from the syntax tree of another: the
// first knows no place inside [[arrays]]. Mistakes of syntax are put into the
// words of a machinist.
//
// What belongs here: what is true of any text file that a person writes. What
// does not: which keys a file may have (process/field).
package source
