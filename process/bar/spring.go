package bar

import "math"

// SettingFor is how deep a radial overlap the cutter must be set to, mm, so
// that it cuts depth, mm, when radial force against depth is force, N, and the
// bar gives compliance, mm/N, at the cutter:
//
//	setting = depth + c·F(depth)
//
// A depth of 0 or less is its own setting.
func SettingFor(force func(depth float64) float64, compliance, depth float64) float64 {
	if !(depth > 0) {
		return depth
	}
	return depth + compliance*max(0, force(depth))
}

// DepthFor is the depth, mm, that a cutter cuts when it is set to overlap by
// setting, mm: the depth whose spring makes up the difference. It inverts
// SettingFor for any force that rises with depth from 0, and brackets the root
// before it halves the bracket, so that it cannot run away however soft the
// bar. A setting of 0 or less cuts nothing and is returned as it is.
func DepthFor(force func(depth float64) float64, compliance, setting float64) float64 {
	if !(setting > 0) || math.IsInf(setting, 1) {
		return setting
	}
	lo, hi := 0.0, setting // overlap left over at lo ≥ 0, at hi ≤ 0
	atLo, atHi := setting, setting-SettingFor(force, compliance, setting)
	if atHi >= 0 {
		return setting
	}
	side := 0
	for range 200 { // regula falsi; an end that stays twice is halved (Illinois)
		x := hi - atHi*(hi-lo)/(atHi-atLo)
		if !(x > lo && x < hi) {
			x = (lo + hi) / 2
		}
		at := setting - SettingFor(force, compliance, x)
		if math.Abs(at) <= 1e-12*setting || hi-lo <= 1e-12*setting {
			return x
		}
		if at > 0 {
			lo, atLo = x, at
			if side > 0 {
				atHi /= 2
			}
			side = 1
		} else {
			hi, atHi = x, at
			if side < 0 {
				atLo /= 2
			}
			side = -1
		}
	}
	return (lo + hi) / 2
}
