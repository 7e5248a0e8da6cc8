package keys_test

import (
	"fmt"

	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/field/si"
	"borewright/process/qty"
)

// A plate with holes, as a file has it and as a document has it.
type plate struct {
	Title string
	Thick qty.Length
	Holes []hole
	Rim   *rim // nil: none
	Mass  float64
}

type hole struct {
	At    [2]qty.Length
	Size  qty.Diameter
	Blind bool
}

type rim struct{ Height qty.Length }

func (p *plate) Describe(d *field.Desc) {
	d.Units(nil, "units").Need().Example(`"in"`).Says("what bare lengths are in")
	d.Text(&p.Title, "title").Need().Example(`"Cover"`).Says("what it is")
	d.Length(&p.Thick, "thick").Default("0.25|6").Span(">0..4|>0..100").Example("0.25|6").Says("thickness").JSON("thick_mm").Decimals(3)
	field.List(d, &p.Holes, "hole", 0, 20).Example("[ { at = [1, 2], size = 0.5 } ]").Says("a hole, one entry each").JSON("holes")
	field.Maybe(d, &p.Rim, "rim").Example("{ height = 0.5 }|{ height = 12 }").Says("a raised rim").OmitEmpty()
	d.Worked("follows from the rest", &p.Mass)
}

func (h *hole) Describe(d *field.Desc) {
	d.LengthPair(&h.At, "at").Need().Span("-40..40|-1000..1000").Example("[1, 2]|[25, 50]").Says("across and up, from the corner").JSON("at_mm")
	d.Diameter(&h.Size, "size").Need().Span(">0..4|>0..100").Example("0.5|12").Says("diameter").JSON("diameter_mm")
	d.Either(&h.Blind, "end", "open", "closed").Default("open").Example(`"closed"`).Says("whether it goes through")
}

func (r *rim) Describe(d *field.Desc) {
	d.Length(&r.Height, "height").Need().Span("0..4|0..100").Example("0.5|12").Says("height of the rim").JSON("height_mm")
}

func Example() {
	var p plate
	r, err := keys.Read("cover.toml", "plate file", []byte(`units = "in"
title = "Cover"
hole = [ { at = [1, 2], size = "10 mm" }, { at = [3, 2], siz = 0.5, end = "shut" } ]
`), &p)
	if err != nil {
		fmt.Println(err) // not TOML at all
	}
	fmt.Println(r.Err())
	fmt.Println(p.Thick.Inches(), p.Holes[0].Size.MM(), p.Rim == nil, r.Given("hole[1].size"), field.Undescribed(&p))

	p.Holes = p.Holes[:1]
	out, _ := si.Write(&p, nil)
	fmt.Printf("%s", out)
	var back plate
	fmt.Println(si.Read(out, &back), back.Holes[0].Size == p.Holes[0].Size)
	// Output:
	// cover.toml:3:58: hole[2].siz: is not a key of a hole; did you mean size?
	// cover.toml:3:69: hole[2].end: "shut" is not known here; write "open" or "closed"
	// 0.25 10 true false []
	// {
	//   "title": "Cover",
	//   "thick_mm": 6.35,
	//   "holes": [
	//     {
	//       "at_mm": [
	//         25.4,
	//         50.8
	//       ],
	//       "diameter_mm": 10,
	//       "end": "open"
	//     }
	//   ]
	// }
	// <nil> true
}
