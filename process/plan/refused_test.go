package plan_test

import (
	"strings"
	"testing"
)

// refusedJob is an example that is altered so that it is stopped.
type refusedJob struct {
	name, of string
	alter    []string // pairs of old and new text
	more     string   // at its end
}

// refused are jobs that one thing stops which most changes cannot touch.
var refused = []refusedJob{
	{"no rounder than the spindle", "gear-case", []string{"\nroundness = 0.012", "\nroundness = 0.002"}, ""},
	{"the same by high-speed steel", "gear-case", []string{"\nroundness = 0.012", "\nroundness = 0.002", `"carbide-coated"`, `"hss"`}, ""},
	{"too warm for a line bar", "wheel-shaft", nil, "\n[limits]\ntemperature = 40\n"},
	{"too warm for three lugs", "ferry-ramp", nil, "\n[limits]\ntemperature = 40\n"},
	{"hardly any spring", "ferry-ramp", nil, "\n[limits]\nspring_rough = 0.0001\nspring_finish = 0.00005\n"},
	{"hardly any spring in roughing", "lock-winch", []string{"[limits]", "[limits]\nspring_rough = 0.0001"}, ""},
	{"a sleeve that cannot bear its load", "lock-winch", []string{"H7/r6", "H7/p6", "[sleeve]", "[sleeve]\ntorque = 40000"}, ""},
}

func (x refusedJob) text(t testing.TB) string {
	t.Helper()
	return strings.NewReplacer(x.alter...).Replace(example(t, x.of+"/job.toml")) + x.more
}
