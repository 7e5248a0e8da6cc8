package qty

import "testing"

// 68 °F is 20 °C; a bare number is in the thermometer of the unit.
func TestParseTemperature(t *testing.T) {
	for _, row := range []struct {
		u       Unit
		text    string
		celsius float64
	}{
		{Inches, "68", 20}, {Metric, "20", 20}, {Metric, "68 F", 20}, {Inches, "20C", 20}, {Inches, "20 °C", 20}, {Metric, "68°F", 20},
		{Metric, "-4.5", -4.5}, {Inches, "32", 0}, {Metric, "0", 0}, {Inches, "79.5 f", 475.0 / 18},
	} {
		got, err := ParseTemperature(row.u, row.text)
		if d := got.Celsius() - row.celsius; err != nil || d > 1e-8 || d < -1e-8 || got == 0 {
			t.Errorf("%q: %v, %v; %v °C", row.text, got.Celsius(), err, row.celsius)
		}
	}
	for _, bad := range []string{"", "warm", "20 K", "F", "1e3 C C", "NaN", "-300 C", "20,5"} {
		if got, err := ParseTemperature(Metric, bad); err == nil {
			t.Errorf("%q is taken as %v °C", bad, got.Celsius())
		}
	}
	if s := Inches.Say(FromCelsius(26.3)); s != "79.34 °F" {
		t.Error(s)
	}
}
