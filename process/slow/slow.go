// Package slow marks the tests that take long. A short run (go test -short)
// leaves them out or takes fewer rounds of them; a full run names them:
//
//	go test -v ./... | grep 'slow: '
//
// A full run draws what shows the faults that a test is there for. The long form draws
// as many as the figures in DEVELOPERS.md were told of:
//
//	LONG_TESTS=1 go test -timeout 60m ./...
//
// Only tests import it. A test that takes more than about a second on one core
// belongs here.
package slow

import (
	"flag"
	"fmt"
	"os"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
)

// The process of a package's tests lives for seconds and holds little: it collects its garbage
// less often, which took a fifth of its time. Benchmarks measure what users run; GOGC, where it
// is given, counts.
func init() {
	bench := slices.ContainsFunc(os.Args, func(arg string) bool { return strings.HasPrefix(arg, "-test.bench=") })
	if os.Getenv("GOGC") == "" && !bench {
		debug.SetGCPercent(400)
	}
}

// Long says that the long form is asked for.
func Long() bool { return os.Getenv("LONG_TESTS") != "" && !testing.Short() }

// Main runs the tests of a package whose random cases take long: a short run draws 8 of each
// property, not 20.
func Main(m *testing.M) {
	flag.Parse()
	if testing.Short() && os.Getenv("RAPID_CHECKS") == "" {
		if err := flag.Set("rapid.checks", "40"); err != nil { // of which a short run draws a fifth
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// Test marks a test of which no smaller part says anything: a short run skips
// it. why says what takes the time.
func Test(t testing.TB, why string) {
	t.Helper()
	if testing.Short() {
		t.Skip("slow: " + why)
	}
	t.Log("slow: " + why + "; not in a short run")
}

// Rounds marks a test that repeats, and is how often: full, few in a short run, or
// long, where it is given, in the long form. what names the rounds.
func Rounds(t testing.TB, what string, full, few int, long ...int) int {
	t.Helper()
	n, form := full, ""
	if testing.Short() {
		n = few
	}
	for _, l := range long {
		if Long() {
			n = l
		}
		form = fmt.Sprintf(", %d in the long form", l)
	}
	t.Logf("slow: %d %s; %d in a full run, %d in a short one%s", n, what, full, few, form)
	return n
}
