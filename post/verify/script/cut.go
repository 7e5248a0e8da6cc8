package script

import "borewright/process/qty"

// Cut is one pass as the program cuts it.
type Cut struct {
	Pass     int          // number of the plan's pass it stands for; 0: none
	Setting  qty.Diameter // what the cutter is set to at that time, by the plan
	Diameter qty.Diameter // of the bore it makes, as set: the program knows no spring
	From, To qty.Length   // depth of the tip
	Feed     qty.Length   // a revolution
	Speed    float64      // rev/min
	Removed  float64      // metal, mm³, from the mean of the bore as found; nominal as the setting
	Line     int
}

// Piece is a length of a station as the program leaves it. The limits are those
// of the visit; a station that it does not bore has none.
type Piece struct {
	Station   string
	From, To  qty.Length
	Cut       bool         // by this program
	Diameter  qty.Diameter // where cut, the setting less the spring of the plan; else the smallest as found
	Low, High qty.Diameter
	Within    bool // Low to High
}
