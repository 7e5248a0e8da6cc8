package files

import (
	"strings"
	"testing"
)

// reboreJob is a sound job in inches that the tables of bad files start from.
const reboreJob = `units    = "in"
number   = "T-1"
revision = "A"
title    = "Test job"
machine  = "hbm-5in"
material = "gray-iron-200hb"

station = [
  { name = "cover", from = 0.0, to = 1.0, diameter = 4.75, swept = true },
  { name = "seat", from = 6.0, to = 7.25, diameter = 3.546 },
]

[[bore]]
station = "seat"
repair  = "rebore"
finish  = { diameter = 3.625, fit = "H7" }
ra      = 63
wear    = [ { depth = 6.2, at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755] } ]

[bar]
steps   = [ { diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 } ]
feed_by = "table"

[cutter]
material    = "carbide"
nose_radius = 0.031

[[sweep]]
station = "cover"
depth   = 0.2
at      = [0, 90, 180, 270]
dial    = [0, 0.0004, 0.0010, 0.0005]
`

// sleeveJob is a sound job in millimetres: a blind bore, sleeved.
const sleeveJob = `units    = "mm"
number   = "T-2"
revision = "B"
title    = "Test job with a sleeve"
machine  = "cnc-110mm"
material = "gray-iron-200hb"

station = [
  { name = "pocket", from = 0, to = 35, diameter = 110, swept = true },
  { name = "wall", from = 184, to = 219, diameter = 100 },
  { name = "idler", from = 368, to = 428, diameter = 80.1, blind = true, relief = 2, wall = 19, wall_most = 32 },
]

[[bore]]
station = "idler"
repair  = "sleeve"
finish  = { diameter = 80, fit = "H7" }
wear    = [ { depth = 376, at = [0, 90, 180, 270], radius = [40.08, 40.36, 40.13, 40.06] } ]

[bar]
steps   = [ { diameter = 108, length = 60 }, { diameter = 57, length = 445 } ]

[cutter]
material    = "hss"
nose_radius = 0.8

[sleeve]
material = "steel-1026"
outside  = 86
`

// edit replaces each old text by the new one that follows it. Every old text
// must stand in the file, so that a row cannot go stale unseen.
func edit(t *testing.T, file string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(file, pairs[i]) {
			t.Fatalf("the file holds no %q to replace", pairs[i])
		}
		file = strings.Replace(file, pairs[i], pairs[i+1], 1)
	}
	return file
}

func TestBaseJobsAreSound(t *testing.T) {
	for _, f := range []string{reboreJob, sleeveJob} {
		if _, err := Job("job.toml", []byte(f), nil); err != nil {
			t.Errorf("%v", err)
		}
	}
}
