package document

import (
	"borewright/process/measured"
	"borewright/sheets/words"
)

// DocumentMeasured is what was measured before a plan for the rest was made.
type DocumentMeasured struct {
	Entries int              `json:"entries"`
	Cuts    []DocumentCut    `json:"cuts"`
	Factors []DocumentFactor `json:"spring_factors"`
	Says    []string         `json:"says"`
}

// DocumentCut is one measured pass. The springs are null where the pass did not
// cut all round.
type DocumentCut struct {
	Station   string   `json:"station"`
	Visit     int      `json:"visit"`
	N         int      `json:"n"`
	Kind      string   `json:"kind"`
	Setting   float64  `json:"cutter_setting_mm"`
	Least     float64  `json:"least_mm"`
	Mean      float64  `json:"mean_mm"`
	Most      float64  `json:"most_mm"`
	Predicted *float64 `json:"spring_predicted_mm"`
	Seen      *float64 `json:"spring_seen_mm"`
}

// DocumentFactor is spring seen over spring predicted in a material; doubt is a
// fraction of it, 95 %.
type DocumentFactor struct {
	Material string  `json:"material"`
	Factor   float64 `json:"factor"`
	Doubt    float64 `json:"doubt"`
	Cuts     int     `json:"cuts"`
}

func measuredDoc(w words.Words, s *measured.Findings) *DocumentMeasured {
	if s == nil {
		return nil
	}
	d := &DocumentMeasured{Entries: s.Entries, Cuts: []DocumentCut{}, Factors: []DocumentFactor{}, Says: append([]string{}, w.Sentences(s.Says)...)}
	for _, c := range s.Cuts {
		x := DocumentCut{Station: c.Station, Visit: c.Visit, N: c.Pass, Kind: c.Kind, Setting: c.Setting.MM(), Least: c.Least.MM(), Mean: c.Mean.MM(), Most: c.Most.MM()}
		if c.Counts {
			predicted, seen := places(c.Predicted.MM(), 5), places(c.Seen.MM(), 5)
			x.Predicted, x.Seen = &predicted, &seen
		}
		d.Cuts = append(d.Cuts, x)
	}
	for _, f := range s.Factors {
		d.Factors = append(d.Factors, DocumentFactor{f.Material, places(f.Factor, 3), places(f.Doubt, 3), f.Cuts})
	}
	return d
}
