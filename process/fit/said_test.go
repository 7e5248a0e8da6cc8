package fit_test

import (
	"strings"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/sheets/words"
)

// said are facts as a metric reader has them, a line each.
func said(facts ...fact.Fact) string {
	return strings.Join(words.In(qty.Metric).Each(facts), "\n")
}

// refused is what an input is refused with, in words.
func refused(err error) string {
	f, ok := fact.Of(err)
	if !ok {
		return err.Error()
	}
	return said(f)
}

// faults is how many things an input is refused for.
func faults(err error) int {
	f, _ := fact.Of(err)
	return len(fact.AsList(f.Nth(1)))
}
