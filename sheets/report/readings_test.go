package report_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/sheets/document"
	. "borewright/sheets/report"
)

// All that can be entered is drawn and entered, the first entry replaced by the third: each
// figure, name and mark stands in the record as text, as HTML and as JSON.
func TestNothingEnteredIsLost(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	first := plan.Make(job)
	draw := rand.New(rand.NewPCG(16, 5))
	ten := func(least, most int) float64 { return float64(least+draw.IntN(most-least)) / 1e4 } // a figure as it is printed
	word := func() string { return fmt.Sprintf("m%06d", draw.IntN(1e6)) }
	inches := func(x float64) qty.Length { return qty.FromInches(x) }
	res := &process.Results{File: "job.results.toml"}
	var want, numbers []string // in text and HTML; in JSON
	for range 3 {
		m := process.Measured{Station: 2, Visit: 1, Pass: []int{5, 6, 5}[len(res.Entries)], Kind: process.SemiFinishCut,
			ID: word(), Revision: word(), Tooling: word(), Sweeps: word(), Program: word(), ProgramSum: word(), By: word(), When: word(), Gauge: word(), Master: word(), Remark: word(), WayOut: process.FeedOut}
		want = append(want, m.ID, m.Revision, m.Tooling, m.Sweeps, m.Program, m.ProgramSum, m.By, m.When, m.Gauge, m.Master, m.Remark, "way out: feed")
		numbers = append(numbers, m.ID, m.Revision, m.Tooling, m.Sweeps, m.Program, m.ProgramSum, m.By, m.When, m.Gauge, m.Master, m.Remark, `"way_out": "feed"`)
		length := func(to *qty.Length, least, most int) {
			x := ten(least, most)
			*to = inches(x)
			want, numbers = append(want, fmt.Sprintf("%.4f", x)), append(numbers, fmt.Sprint(to.MM()))
		}
		diameter := func(to *qty.Diameter, least, most int) {
			var l qty.Length
			length(&l, least, most)
			*to = qty.Diameter(l)
		}
		diameter(&m.Setting, 33000, 34000)
		diameter(&m.Before, 32000, 33000)
		diameter(&m.Low, 33000, 34000)
		diameter(&m.High, 33000, 34000)
		length(&m.Feed, 10, 90)
		length(&m.Land, 1, 90)
		length(&m.CutTo, 145000, 168000)
		m.Speed = qty.RevPerMin(30 + draw.IntN(300))
		m.WorkTemp, m.GaugeTemp = qty.FromCelsius(float64(20+draw.IntN(9))), qty.FromCelsius(float64(15+draw.IntN(9)))
		m.Ra = qty.FromMicroInches(float64(20 + draw.IntN(90)))
		m.Marked, m.Bare = []float64{30 * float64(draw.IntN(6))}, []float64{30 * float64(6+draw.IntN(6))}
		degrees := func(all []float64) string { return fmt.Sprintf("[ %v ]", all[0]) }
		numbers = append(numbers, fmt.Sprintf(`"speed_rev_min": %v`, float64(m.Speed)), fmt.Sprintf(`"ra_um": %v,`, 0.0254*m.Ra.MicroInches()), fmt.Sprintf(`"marked_deg": %s`, degrees(m.Marked)), fmt.Sprintf(`"bare_deg": %s`, degrees(m.Bare)))
		want = append(want, fmt.Sprintf("%v rev/min", float64(m.Speed)), fmt.Sprintf("work %.4g °F", 32+1.8*m.WorkTemp.Celsius()), fmt.Sprintf("gauge at %.4g °F", 32+1.8*m.GaugeTemp.Celsius()), fmt.Sprintf("Ra %.0f", m.Ra.MicroInches()))
		numbers = append(numbers, fmt.Sprintf(`"work_temperature_c": %v`, m.WorkTemp.Celsius()), fmt.Sprintf(`"gauge_temperature_c": %v`, m.GaugeTemp.Celsius()))
		for range 1 + draw.IntN(3) {
			s := process.Size{At: 30 * float64(draw.IntN(12))}
			length(&s.Depth, 145000, 168000)
			diameter(&s.Diameter, 33000, 34000)
			// By the test's own figures: gray iron 11e-6, steel 11.5e-6.
			cold := s.Diameter.MM() * (1 + 11.5e-6*(m.GaugeTemp.Celsius()-20) - 11e-6*(m.WorkTemp.Celsius()-20))
			want = append(want, qty.Inches.Format(qty.FromMM(cold)))
			numbers = append(numbers, fmt.Sprint(qty.FromMM(cold).MM()))
			m.Sizes = append(m.Sizes, s)
		}
		res.Entries = append(res.Entries, m)
	}
	want = append(want, "by entry 3, made by "+res.Entries[2].By)
	numbers = append(numbers, `"replaced_by_entry": 3`, `"replaced_by": "`+res.Entries[2].By+`"`)
	now := plan.MakeAfter(job, res)
	rows, entries := record.Of(first, now), record.Entries(first, res)
	sheet := Record(first, now, nil, nil, entries)
	var text, html bytes.Buffer
	if err := sheet.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	if err := sheet.WriteHTML(&html); err != nil {
		t.Fatal(err)
	}
	doc, err := document.WriteRecord(first, first, nil, nil, rows, entries)
	if err != nil || !json.Valid(doc) {
		t.Fatal(err)
	}
	flat := func(b []byte) string { return strings.Join(strings.Fields(string(b)), " ") }
	tags := regexp.MustCompile(`<[^>]*>`)
	for _, face := range []struct {
		name, text string
		want       []string
	}{{"text", flat(text.Bytes()), want}, {"HTML", flat(tags.ReplaceAll(html.Bytes(), []byte(""))), want}, {"JSON", flat(doc), numbers}} {
		for _, w := range face.want {
			if !strings.Contains(face.text, w) {
				t.Errorf("the %s record has no %q", face.name, w)
			}
		}
	}
	for _, w := range []string{"Deviations and concessions", "Concession no.", "certificate", "The axis", "Swept"} {
		if !strings.Contains(text.String(), w) {
			t.Errorf("no %q", w)
		}
	}
}
