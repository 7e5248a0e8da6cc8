package schedule

// Leads is whether the cutter is set for the bore of a station in a visit: it is cut alone, or it
// is the first of those that are cut through at one setting.
func (v *Visit) Leads(station string) bool {
	return len(v.Together) == 0 || v.Together[0] == station
}
