package place

import "testing"

func TestClockWords(t *testing.T) {
	for deg, want := range map[float64]string{0: "12 o'clock", 90: "3 o'clock", 45: "1:30", 359: "12 o'clock", 270: "9 o'clock", 22.5: "12:45", 100: "3:15"} {
		if got := clockWords(deg); got != want {
			t.Errorf("%v°: %q, want %q", deg, got, want)
		}
	}
}

func TestClockLabelsTellApart(t *testing.T) {
	for deg, want := range map[float64]string{0: "12 o'clock", 90: "3 o'clock", 45: "1:30", 22.5: "12:45", 5: "12:10 (5°)", 10: "12:20 (10°)", 355: "11:50 (355°)", 33.3: "1:07 (33.3°)", 359.9: "12:00 (359.9°)"} {
		if got := clockLabel(deg); got != want {
			t.Errorf("%v°: %q, want %q", deg, got, want)
		}
	}
	seen := map[string]float64{}
	for i := range 3600 {
		deg := float64(i) / 10
		if other, twice := seen[clockLabel(deg)]; twice {
			t.Fatalf("%v° and %v° are both %q", other, deg, clockLabel(deg))
		}
		seen[clockLabel(deg)] = deg
	}
}
