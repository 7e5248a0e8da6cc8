// Package field describes a figure once. A struct that is written in a file or
// printed as a document has one method under its declaration, Describe, that
// names each of its fields by address, with its key, kind and unit, range,
// default, example and words. What goes by the description:
//
//   - Read reads a TOML file into the struct: every mistake at its line, the
//     nearest right key, defaults, ranges in in or mm. The Reader knows by path
//     which keys were given and which were good, for the checks of the loader
//     that look at several figures.
//   - Entries and Explain say what the keys are.
//   - WriteTOML writes the keys that are set as a file has them.
//   - WriteJSON and ReadJSON write and read a document in SI, the unit in the
//     name.
//   - Compare lists what differs between two values of one type, by label and rank.
//   - Undescribed, for a test, lists the fields of a struct that were forgotten.
//
// So a key cannot be written down without a field that it is read into, and a
// field without a description fails a test.
//
// What belongs here: what is true of any file of figures. What does not: any
// figure of a job, and any check that looks at two of them; the package knows
// quantities (process/qty) and no job.
package field
