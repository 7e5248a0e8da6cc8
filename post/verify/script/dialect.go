package script

import (
	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/storage"
)

// Dialect is how the control reads a program.
func Dialect(c *process.Control) rs274.Dialect {
	d := rs274.Dialect{Numbers: rs274.PointMust, Whole: c.WholePlaces, Part: c.PartPlaces, LineMost: c.LineMost, Plain: c.PlainText, LowerCase: c.LowerCase, UnitsWords: rs274.G20G21, Percent: rs274.Refused}
	if c.DropZeros == process.KeptZeros {
		d.Zeros = rs274.AllZeros
	}
	if !c.DecimalPoint {
		d.Numbers = rs274.AllDigits
		switch c.DropZeros {
		case process.LeadingZeros:
			d.Numbers = rs274.DropLeading
		case process.TrailingZeros:
			d.Numbers = rs274.DropTrailing
		}
	}
	if d.Part == 0 {
		d.Part = 3
		if c.Units == qty.Inches {
			d.Part = 4
		}
	}
	if c.UnitsWord == process.G70G71 {
		d.UnitsWords = rs274.G70G71
	}
	switch c.Dwell {
	case process.DwellMilliseconds:
		d.DwellUnit = rs274.Milliseconds
	case process.DwellRevolutions:
		d.DwellUnit = rs274.Revolutions
	}
	d.DwellWord = byte(c.DwellWord)
	d.OrientWord = byte(c.OrientWord)
	switch c.LineEnd {
	case storage.EndLF:
		d.LineEnd = rs274.EndLF
	case storage.EndCRLF:
		d.LineEnd = rs274.EndCRLF
	case storage.EndCR:
		d.LineEnd = rs274.EndCR
	}
	if c.Percent {
		d.Percent = rs274.Required
	}
	for _, f := range []struct {
		has  bool
		what rs274.Features
	}{
		{c.Comments, rs274.Comments}, {c.BlockNumbers || c.RestartStep > 0, rs274.BlockNumbers}, {c.FeedPerRev, rs274.PerRev},
		{c.Cycles, rs274.Cycles}, {c.ReturnWords, rs274.ReturnWords}, {c.OrientedStop, rs274.Oriented}, {len(c.Gears) > 0, rs274.GearWords},
		{c.HomeWord != 0, rs274.Returns},
	} {
		if !f.has {
			d.Lacks |= f.what
		}
	}
	return d
}

// LeastInput is the smallest step of a length word: 0.001 mm or 0.0001 in on
// most controls.
func LeastInput(c *process.Control) qty.Length {
	places := c.PartPlaces
	if places <= 0 {
		places = 3
		if c.Units == qty.Inches {
			places = 4
		}
	}
	scale := qty.Length(1)
	for range min(places, 6) { // as rs274 reads it
		scale *= 10
	}
	return max((c.Units.Of(1)+scale-1)/scale, 1) // 0.000001 in is 25.4 nm: up
}
