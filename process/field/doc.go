// Package field describes a figure once. A struct that is written in a file or
// printed as a document has one method under its declaration, Describe, that
// names each of its fields by address, with its key, kind and unit, range,
// default, example and words. The walkers go by it, each in a room of its own:
//
//   - keys reads a TOML file into the struct, explains its keys, and writes the
//     keys that are set as a file has them.
//   - si writes and reads a JSON document in SI.
//   - diff lists what differs between two values of one type.
//
// So a key cannot be written down without a field that it is read into, and a
// field without a description fails a test (Undescribed).
//
// What belongs here: what can be said of a figure, and how it is held. What does
// not: any figure of a job; the package knows quantities (process/qty) and no job.
package field
