package plan

import "testing"

func TestRuns(t *testing.T) {
	for want, n := range map[string][]int{"": nil, "7": {7}, "6, 7": {6, 7}, "1, 3 to 5": {1, 3, 4, 5}, "1 to 25": {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25}} {
		if got := runs(n); got != want {
			t.Errorf("%v: %q, want %q", n, got, want)
		}
	}
}
