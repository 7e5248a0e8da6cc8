package main

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Imports point down only. Each package may use those named here (and the
// standard library, and modules); anything else is a fault in the layout.
func TestImportsPointDown(t *testing.T) {
	may := map[string]string{
		"process/qty":          "",
		"process/fact":         "process/qty",
		"process/onebyone":     "",
		"process/slow":         "",
		"process/cores":        "",
		"process/cut":          "process/qty",
		"process/bar":          "process/qty",
		"process/fit/iso286":   "process/qty",
		"process/fit/ansib41":  "process/fit/iso286 process/qty",
		"process/fit/seats":    "process/fit/ansib41 process/fit/iso286 process/fact process/qty",
		"process/fit/joining":  "",
		"sheets/repair":        "sheets/words sheets/page process/plan process/remedy process/fit process/qty",
		"process/doubt":        "process process/cut process/fact process/fit/standard process/qty",
		"process/remedy":       "process/fact process process/plan process/sleeve process/fit process/qty",
		"process/fit/standard": "process/fit/ansib41 process/fit/iso286 process/qty",
		"process/hub":          "process/geom process/qty",
		"process/fit":          "process/landing process/hub process/fit/iso286 process/fit/joining process/fit/standard process/fact process/qty",
		"process/geom":         "process/fact process/qty",
		"process/clearance":    "process/fact process/geom process/qty",
		"process/source":       "",
		"process/field":        "process/fact process/qty",
		"process/field/keys":   "process/field process/source process/qty",
		"process/field/si":     "process/field process/fact process/source process/qty",
		"process/field/diff":   "process/field process/fact process/source process/qty",
		"process/grown":        "process/field/keys process/source",
		"process/approval":     "process/field process/field/keys process/grown process/source process/qty",
		"process/feature":      "process/field process/qty",
		"process":              "process/candidate process/feature process/hub process/fact process/field process/source process/cut process/fit process/fit/standard process/qty process/storage",
		"process/control":      "process process/field/keys process/source process/storage",
		"process/line":         "process process/field/keys process/source",
		"process/storage":      "process/field",
		"process/marks":        "process",
		"process/warm":         "process process/qty",
		"process/bearings":     "process process/faces process/field/keys process/source process/qty",
		"process/named":        "process process/source process/qty",
		"process/faces":        "process process/field/keys process/source",
		"process/turns":        "process process/fact process/faces process/place process/qty",
		"process/plan/thumb":   "process/fact process/plan process/qty process/schedule process/setup process/ways",
		"process/files":        "process/control process/faces process/line process/named process/grown process/candidate process process/field process/field/keys process/source process/cut process/fit process/fit/standard process/qty process/bearings",
		"process/plate":        "process/files process/field/keys process/source",
		"process/landing":      "process/field process/fact process/qty",
		"process/setup":        "process/cores process/field process/fact process/files process process/cut process/bar process/qty",
		"process/schedule":     "process/field process/landing process/fact process/setup process process/cut process/qty",
		"process/pass":         "process/cores process/fact process/schedule process/setup process process/cut process/fit/iso286 process/qty",
		"process/passes":       "process/cores process/field process/landing process/fact process/pass process/schedule process/setup process process/cut process/qty",
		"process/place":        "process/field process/fact process/files process process/passes process/schedule process/setup process/fit process/clearance process/geom process/qty process/faces process/source",
		"process/sleeve":       "process/feature process/hub process/field process/fact process/files process process/passes process/schedule process/setup process/place process/fit process/fit/iso286 process/fit/joining process/fit/standard process/qty process/storage",
		"process/measured":     "process/field process/fact process/files process process/passes process/pass process/schedule process/setup process/geom process/qty process/warm process/marks",
		"process/ways":         "process/candidate process/faces process/named process/cores process/pass process/field process/field/keys process/fact process/files process process/schedule process/setup process/place process/sleeve process/measured process/fit process/fit/standard process/source process/qty",
		"process/candidate":    "process/fact process/field process/qty",
		"process/choice":       "process/cores process/faces process process/candidate process/fact process/files process/named process/pass process/place process/qty process/schedule process/setup process/source",
		"process/plan":         "process/cores process/doubt process/named process/choice process/ways process/field process/fact process/files process process/passes process/pass process/schedule process/setup process/place process/sleeve process/measured process/fit process/clearance process/geom process/qty process/faces process/turns",
		"process/record":       "process/field process/fact process process/passes process/schedule process/measured process/plan process/fit/standard process/qty process/warm process/marks",
		"process/revision":     "process/files process/named process/source process/landing process/field process/field/diff process/fact process process/passes process/schedule process/setup process/place process/sleeve process/plan process/fit process/qty",
		"post/rs274":           "process/qty",
		"post":                 "process/storage post/sum process/fact sheets/words post/rs274 process/plan process/passes process/schedule process process/qty",
		"post/sum":             "",
		"post/verify/remark":   "post/rs274 process/qty",
		"post/verify/script":   "process/storage post/verify/remark post/rs274 process/plan process/schedule process process/qty",
		"post/verify/sentence": "post/verify/through post/sum post/verify/remark post/verify/script sheets/words process/plan process/schedule process process/qty",
		"post/verify/through":  "post/verify/script post/rs274 process/plan process process/qty",
		"post/verify/path":     "post/verify/script post/rs274 process/plan process/qty",
		"post/verify/offaxis":  "post/verify/script post/rs274 process/schedule process process/qty",
		"post/verify/travels":  "post/verify/script post/rs274 process process/qty",
		"post/verify/mouth":    "post/verify/script post/rs274 process/schedule process process/qty",
		"post/verify/around":   "post/verify/script post/rs274 process/plan process/schedule process process/qty",
		"post/verify":          "post/verify/through post/verify/mouth post/sum post/verify/sentence post/verify/travels post/verify/around post/verify/offaxis post/verify/script post/verify/remark post/rs274 process/plan process/passes process/schedule process process/qty process/storage",
		"sheets/draw":          "process/qty",
		"sheets/words":         "process/doubt process/choice process/ways process/remedy process/landing process/fact process/record process/revision process/plan process/measured process/sleeve process/place process/passes process/schedule process/setup process process/fit process/fit/seats process/clearance process/geom process/qty process/source process/turns",
		"sheets/made":          "",
		"sheets/document":      "process/approval sheets/made process/ways post/sum process/field process/field/keys process/field/si sheets/words process/fact process/record process/plan process/measured process/sleeve process/landing process/place process/passes process/schedule process/setup process process/fit process/clearance process/geom process/qty",
		"sheets/limits":        "process/field process/field/si sheets/page sheets/words process/fact process/fit/iso286 process/fit/standard process/fit/seats process/source process/qty",
		"sheets/programs":      "post post/sum sheets/document process/plan process/schedule process",
		"sheets/proof":         "sheets/head sheets/figure post/verify/path sheets/document process/field process/field/si sheets/words sheets/page post/verify post/verify/remark process/plan process/qty",
		"sheets/head":          "sheets/document process/fact sheets/words process/measured process/place process/plan process/schedule process process/qty",
		"sheets/page":          "sheets/draw",
		"sheets/figure":        "process/feature process/sleeve post/verify post/verify/path process/fact sheets/head sheets/page sheets/draw process/plan process/clearance process/geom process/place process/passes process/schedule process process/qty",
		"sheets/report":        "process/warm process/place process/approval sheets/made sheets/figure sheets/document process/field/si process/fact process/landing sheets/words sheets/head sheets/page process/revision process/record process/plan process/measured process process/field process/qty",
		"sheets/card":          "process/turns sheets/words sheets/head sheets/figure sheets/page sheets/draw process/fact process/place process/plan process/schedule process process/qty",
		"sheets/lathe":         "sheets/figure sheets/head sheets/page process/sleeve process/plan process/fit process/fit/iso286 process/qty",
		"sheets/annex":         "process/candidate process process/clearance process/fact process/fit process/fit/iso286 process/geom process/place process/plan process/qty process/schedule process/setup process/sleeve sheets/card sheets/figure sheets/head sheets/lathe sheets/made sheets/page sheets/repair process/storage",
		"sheets":               "process process/fact process/fit process/place process/plan process/qty process/record process/schedule process/sleeve process/ways sheets/annex sheets/card sheets/head sheets/lathe sheets/page sheets/repair sheets/words process/plan/thumb",
		"cmd/store":            "",
		"cmd/browser":          "",
		"cmd/jobfile":          "process/approval cmd/store post post/verify post/verify/path process process/fact process/files process/grown process/plan process/qty process/record process/source sheets sheets/document sheets/figure sheets/head sheets/page sheets/programs sheets/report sheets/words",
		"cmd/jobfile/kept":     "cmd/jobfile process process/plan sheets",
		"cmd/folder":           "process/approval process/cores cmd/jobfile cmd/store post post/verify process/files process/measured process/plan process/qty process/source sheets/words",
		"cmd/serve":            "process/approval process/field/keys process/qty cmd/ask cmd/serve/ahead cmd/serve/desk cmd/serve/links cmd/folder cmd/jobfile cmd/store process process/fact process/files process/plan process/record process/schedule process/source sheets/card sheets/entry sheets/head sheets/page sheets/programs sheets/report sheets/words",
		"cmd/serve/ahead":      "",
		"cmd/serve/links":      "sheets/draw sheets/page",
		"cmd/serve/desk":       "cmd/ask cmd/jobfile process process/fact process/field/keys process/files process/plan process/qty process/schedule process/setup process/source sheets/annex sheets/card sheets/figure sheets/head sheets/page sheets/words",
		"cmd/borewright":       "process/approval cmd/folder cmd/jobfile cmd/serve cmd/serve/links cmd/ask sheets/talk sheets/made cmd/store post/sum sheets/programs sheets/document sheets/words process/fact process/files process/field/keys process/source sheets sheets/page sheets/report sheets/proof sheets/limits post post/verify process/record process/plan process/measured process process/fit/standard process/qty sheets/entry process/plate",
		"sheets/talk":          "",
		"cmd/ask":              "process/files process/field/keys process/source process/qty sheets/page sheets/talk process/plate",
		"sheets/entry":         "sheets/talk sheets/words process/fact process/record process/plan process/schedule process process/qty",
	}
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "borewright/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(strings.ReplaceAll(line, "borewright/", ""))
		pkg := words[0]
		allowed, ok := may[pkg]
		if !ok {
			t.Errorf("package %s is not in the layout: give it a row here, or do without it", pkg)
			continue
		}
		seen++
		ours := strings.Fields(line)[1:]
		for _, imp := range ours {
			rest, own := strings.CutPrefix(imp, "borewright/")
			if own && !slices.Contains(strings.Fields(allowed), rest) {
				t.Errorf("%s imports %s: imports point down only", pkg, rest)
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d packages seen", seen)
	}
}

// A room stays small enough to be known whole: 2,500 lines without tests.
func TestRoomsAreSmall(t *testing.T) {
	lines := map[string]int{}
	for _, top := range []string{"cmd", "process", "post", "sheets"} {
		err := filepath.WalkDir(filepath.Join("..", "..", top), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			data, err := os.ReadFile(path)
			lines[filepath.Dir(path)] += bytes.Count(data, []byte("\n"))
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(lines) < 50 {
		t.Fatalf("only %d rooms were found", len(lines))
	}
	for room, n := range lines {
		if n > 2500 {
			t.Errorf("%s has %d lines: make a room of one trade of it", room, n)
		}
	}
}
