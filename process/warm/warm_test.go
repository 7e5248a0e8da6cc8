package warm

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/qty"
)

// A bore of 100 mm in gray iron (11e-6/K), gauged by steel (11.5e-6/K), worked out by hand:
// 10 K on 100 mm are 11 µm of the work and 11.5 µm of the gauge.
func TestSizesAtTwentyDegrees(t *testing.T) {
	for _, row := range []struct {
		why         string
		work, gauge float64 // °C
		add         float64 // µm to the reading
	}{
		{"both at 20 °C", 20, 20, 0},
		{"warm work, cold gauge: it reads large", 30, 20, -11},
		{"cold work, warm gauge: it reads small", 20, 30, 11.5},
		{"both warm: by what the two differ", 30, 30, 0.5},
		{"cold work reads small", 5, 20, 16.5},
		{"freezing point", 0, 20, 22},
	} {
		m := process.Measured{WorkTemp: qty.FromCelsius(row.work), GaugeTemp: qty.FromCelsius(row.gauge)}
		if got := AtTwenty(m, qty.DiameterMM(100), 11e-6).MM(); math.Abs(got-100-row.add/1000) > 1e-6 {
			t.Errorf("%s: %v µm are added, %v by hand", row.why, 1000*(got-100), row.add)
		}
	}
	for _, m := range []process.Measured{{}, {WorkTemp: qty.FromCelsius(30)}, {GaugeTemp: qty.FromCelsius(30)}} {
		if AtTwenty(m, qty.DiameterMM(100), 11e-6) != qty.DiameterMM(100) {
			t.Errorf("%v: moved, and one temperature is not known", m)
		}
	}
}
