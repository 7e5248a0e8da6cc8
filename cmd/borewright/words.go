package main

import (
	"errors"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/sheets/words"
)

// inWords is an error as a person reads it: one that is a fact is put in words.
func inWords(u qty.Unit, err error) error {
	if f, ok := fact.Of(err); ok {
		return errors.New(words.In(u).Say(f))
	}
	return err
}
