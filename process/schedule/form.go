package schedule

// Place is a place of the form of a hold point: how the sheet names it, and how an entry does.
type Place struct{ Name, Depth string }

// FormClocks are the directions of the form, a diameter each.
func FormClocks() []string { return []string{"12 - 6", "1:30 - 7:30", "3 - 9", "4:30 - 10:30"} }

// Form is the places at which the bore is gauged after a pass; those of any pass for nil.
func Form(p *Pass) []Place {
	if p != nil && p.Band != nil {
		return []Place{{"in the band", "near"}}
	}
	ends := []Place{{"near end", "near"}, {"middle", "middle"}, {"far end", "far"}}
	if p != nil && p.Kind == SemiFinish { // nothing but its size is asked for
		return []Place{ends[0], ends[2]}
	}
	return ends
}
