// Package warm brings a reading of warm work by a warm gauge to 20 °C.
package warm

import (
	"borewright/process"
	"borewright/process/qty"
)

// GaugeAlpha is the expansion of steel gauges, rings and gauge blocks, 1/K: 11.5e-6 ± 1.0e-6
// (ISO 3650:1998, 6.3, from memory).
const GaugeAlpha = 11.5e-6

// reference is the temperature at which sizes hold, °C (ISO 1:2022).
const reference = 20

// AtReference is whether an entry says how warm work and gauge were.
func AtReference(m process.Measured) bool { return m.WorkTemp > 0 && m.GaugeTemp > 0 }

// ToReference is what is added to a reading of diameter d of the gauge for the size at 20 °C,
// of work that grows by alpha, 1/K; 0 where the entry does not say how warm work and gauge were:
//
//	c = d·(α_g·(T_g − 20) − α_w·(T_w − 20))
//
// A warm gauge is long and reads small, warm work is large. Gauge and master are taken as
// steel, both at the temperature of the gauge. The square of the strain, below 1e-6 of c, is
// left out. Source: ISO 1:2022 for the 20 °C; the rest is the definition of α.
func ToReference(m process.Measured, d qty.Diameter, alpha float64) qty.Length {
	if !AtReference(m) {
		return 0
	}
	return qty.FromMM(d.MM() * (GaugeAlpha*(m.GaugeTemp.Celsius()-reference) - alpha*(m.WorkTemp.Celsius()-reference)))
}

// AtTwenty is a reading as the size at 20 °C; the reading itself where the entry does not say
// how warm work and gauge were.
func AtTwenty(m process.Measured, d qty.Diameter, alpha float64) qty.Diameter {
	return d.Plus(ToReference(m, d, alpha))
}
