package words

import (
	"borewright/process/fact"
	"borewright/process/remedy"
)

// ofRemedy are the words of process/remedy.
var ofRemedy = map[fact.Kind]entry{
	remedy.Larger:      text("rebore to {1}, where it cleans up, and a part {2} larger, with no joint and no heat{?, {3} of metal left}{?, {4}}; not where the part comes in one size, as a rolling bearing"),
	remedy.LargerAsked: text("rebore to {1}, which cleans it up, with no joint and no heat{?, {2} of metal left}{?, {3}}"),
	remedy.Pressed:     text("a sleeve of {1} outside pressed in, {2} of wall{?, {3} of metal left around it}{?, the housing pulled to {4}}{?, in by heat at {5}}{?, or a press of {6}}{?, {7}}"),
	remedy.Bonded:      text("the same sleeve bonded in a gap of {2}, housing {1}, with no tension in it{?, {3} of metal left}{?, good to {4} where it gets {5}}{?, {6}}, a day to set"),
	remedy.Bush:        text("a bush of {1} outside and {2} of wall that is changed when it is worn, without the mill the next time: held by a screw or pin as well, and oiled or greased"),
	remedy.NoSleeve:    text("a sleeve or bush would take {1} outside, and there is {2} of metal around the bore: too little"),
	remedy.BuiltUp:     text("built up by about {1} on the radius from {2} clean, and bored again: the heat draws the casting, so line up and read it afresh; time not known here; welding under load or pressure is for licensed practice"),
	remedy.BuiltUpIron: text("built up by about {1} on the radius from {2} clean, and bored again: heat cracks iron and hardens its skin, so that this goes to licensed practice; a cold process is asked the same; time not known here"),
}
