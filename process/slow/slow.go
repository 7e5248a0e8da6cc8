// Package slow marks the tests that take long. A short run (go test -short)
// leaves them out or takes fewer rounds of them; a full run names them:
//
//	go test -v ./... | grep 'slow: '
//
// Only tests import it. A test that takes more than about a second on one core
// belongs here.
package slow

import "testing"

// Test marks a test of which no smaller part says anything: a short run skips
// it. why says what takes the time.
func Test(t testing.TB, why string) {
	t.Helper()
	if testing.Short() {
		t.Skip("slow: " + why)
	}
	t.Log("slow: " + why + "; not in a short run")
}

// Rounds marks a test that repeats, and is how often: full, or few in a short
// run. what names the rounds.
func Rounds(t testing.TB, what string, full, few int) int {
	t.Helper()
	n := full
	if testing.Short() {
		n = few
	}
	t.Logf("slow: %d %s; %d in a full run, %d in a short one", n, what, full, few)
	return n
}
