package files

import (
	"errors"
	"strings"
	"testing"

	"borewright/process/source"
)

// lineJob is a sound job with two bores that are cut through at one setting.
var lineJob = strings.NewReplacer(
	`  { name = "seat", from = 6.0, to = 7.25, diameter = 3.546 },`, `  { name = "seat", from = 6.0, to = 7.25, diameter = 3.546 },
  { name = "wide", from = 8.0, to = 8.25, diameter = 4.5 },
  { name = "inner", from = 9.0, to = 10.0, diameter = 3.55 },`,
	"[bar]", `[[bore]]
station = "inner"
with    = "seat"
repair  = "rebore"
finish  = { diameter = 3.625, fit = "H7" }
ra      = 63

[bar]`, "length = 7.5", "length = 10.0").Replace(reboreJob)

// badSettings are jobs whose bores cannot be cut through at one setting.
var badSettings = []badFile{
	{"with itself", lineJob, []string{`with    = "seat"`, `with    = "inner"`},
		`job.toml:24:1: bore[2].with: a bore is not cut with itself; leave with out here, and write it in the other bores of the setting`},
	{"no such station", lineJob, []string{`with    = "seat"`, `with    = "seet"`},
		`job.toml:24:1: bore[2].with: there is no station "seet"; did you mean "seat"? Stations are "cover", "seat", "wide" or "inner"`},
	{"not bored", lineJob, []string{`with    = "seat"`, `with    = "wide"`},
		`job.toml:24:1: bore[2].with: "wide" is not bored; name the station of another bore of this job, or leave with out`},
	{"another size", lineJob, []string{"fit = \"H7\" }\nra      = 63\n\n", "fit = \"H6\" }\nra      = 63\n\n"},
		`job.toml:24:1: bore[2].with: the finish of "inner" is not that of "seat", and one setting makes both bores alike; make it alike in both, or leave with out`},
	{"another roughness", lineJob, []string{"fit = \"H7\" }\nra      = 63\n\n", "fit = \"H7\" }\nra      = 32\n\n"},
		`job.toml:24:1: bore[2].with: the roughness of "inner" is not that of "seat", and one setting makes both bores alike; make it alike in both, or leave with out`},
	{"a witness cut", lineJob, []string{`with    = "seat"`, "with    = \"seat\"\nwitness = true"},
		`job.toml:25:1: bore[2].witness: a witness cut marks a band and does not go through, and "inner" is cut through at one setting with others; leave it out, or leave with out`},
	{"what stands between", lineJob, []string{`diameter = 4.5`, `diameter = 3.7`},
		`job.toml:24:1: bore[2].with: "wide" stands between, and at Ø3.7 in it has no room for the cutter at its size: Ø3.7464 in with room for chips; leave with out`},
	{"the first of its own", lineJob, []string{"ra      = 63\nwear", "ra      = 63\nwith = \"inner\"\nwear"},
		`job.toml:20:1: bore[1].with: "inner" is itself cut through with "seat"; write with = "seat" here, too`},
}

// threeInLine is a sound job with three bores that are cut through at one setting.
var threeInLine = strings.NewReplacer(
	`  { name = "inner", from = 9.0, to = 10.0, diameter = 3.55 },`, `  { name = "inner", from = 9.0, to = 10.0, diameter = 3.55 },
  { name = "last", from = 10.5, to = 11.0, diameter = 3.55 },`,
	"[bar]", `[[bore]]
station = "last"
with    = "seat"
repair  = "rebore"
finish  = { diameter = 3.625, fit = "H7" }
ra      = 63

[bar]`, "length = 10.0", "length = 11.5").Replace(lineJob)

// What is wrong for all bores of a setting alike is one mistake.
func TestOneMistakeOfASetting(t *testing.T) {
	if _, err := Job("job.toml", []byte(threeInLine), nil); err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct{ why, from, to, want string }{
		{"no such station", `"seat"`, `"seet"`, "no station"},
		{"not bored", `"seat"`, `"wide"`, "is not bored"},
		{"a sleeve", "repair  = \"rebore\"\nfinish  = { diameter = 3.625, fit = \"H7\" }\nra      = 63\nwear", "repair  = \"sleeve\"\nfinish  = { diameter = 3.625, fit = \"H7\" }\nra      = 63\nwear", "only rebored"},
		{"the first is not as the others", "ra      = 63\nwear", "ra      = 32\nwear", "the roughness"},
		{"the first marks a band", "ra      = 63\nwear", "ra      = 63\nwitness = true\nwear", "marks a band"},
	} {
		text := strings.Replace(threeInLine, x.from, x.to, 1)
		if strings.HasPrefix(x.from, `"seat"`) { // in the keys alone
			text = strings.ReplaceAll(threeInLine, "with    = "+x.from, "with    = "+x.to)
		}
		_, err := Job("job.toml", []byte(text), nil)
		var all source.Errors
		if !errors.As(err, &all) || len(all) != 1 && x.why != "a sleeve" || strings.Count(err.Error(), x.want) != 1 {
			t.Errorf("%s: %v", x.why, err)
		}
	}
	two := strings.Replace(threeInLine, "ra      = 63\n\n", "ra      = 32\n\n", 1)
	two = strings.Replace(two, "station = \"last\"\nwith    = \"seat\"\nrepair  = \"rebore\"\nfinish  = { diameter = 3.625, fit = \"H7\" }", "station = \"last\"\nwith    = \"seat\"\nrepair  = \"rebore\"\nfinish  = { diameter = 3.625, fit = \"H6\" }", 1)
	if _, err := Job("job.toml", []byte(two), nil); err == nil || strings.Count(err.Error(), "one setting makes both bores alike") != 2 {
		t.Errorf("two mistakes: %v", err)
	}
}

func TestOneSetting(t *testing.T) {
	for _, x := range badSettings {
		t.Run(x.why, func(t *testing.T) {
			text := x.file
			for i := 0; i < len(x.edits); i += 2 {
				if !strings.Contains(text, x.edits[i]) {
					t.Fatalf("no %q", x.edits[i])
				}
				text = strings.Replace(text, x.edits[i], x.edits[i+1], 1)
			}
			_, err := Job("job.toml", []byte(text), nil)
			if err == nil || !strings.Contains(err.Error(), x.want) {
				t.Errorf("%v\nwant %s", err, x.want)
			}
		})
	}
	j, err := Job("job.toml", []byte(lineJob), nil)
	if err != nil {
		t.Fatal(err)
	}
	if j.Bores[0].Witness || j.Bores[1].Witness {
		t.Error("bores of one setting begin with a witness cut")
	}
}
