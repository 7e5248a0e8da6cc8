package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const readmePicture = "golden/readme/setup.svg"

// What README shows of the example is what the example prints: its table of
// passes and its drawing. UPDATE_GOLDEN=1 rewrites both.
func TestReadmeShowsTheExample(t *testing.T) {
	t.Chdir("../..")
	readme := readText(t, "README.md")
	printed := readText(t, "golden/lock-winch/stdout.txt")
	var shown []string
	for _, block := range fenced(readme) {
		if strings.Contains(block, "HOLD") {
			if os.Getenv("UPDATE_GOLDEN") != "" {
				now := firstTable(printed)
				readme = strings.Replace(readme, block, now, 1)
				if err := os.WriteFile("README.md", []byte(readme), 0o644); err != nil {
					t.Fatal(err)
				}
				block = now
			}
			if table, _, ok := strings.Cut(printed[strings.Index(printed, "\n\n")+2:], "\n\n  a)"); ok && os.Getenv("UPDATE_GOLDEN") != "" {
				if err := os.WriteFile("README.md", []byte(strings.Replace(readme, block, table+"\n", 1)), 0o644); err != nil {
					t.Fatal(err)
				}
				block = table + "\n"
			}
			shown = append(shown, block)
			if !strings.Contains(printed, block) {
				t.Errorf("golden/lock-winch/stdout.txt does not hold what README shows:\n%s", block)
			}
		}
	}
	if len(shown) != 1 {
		t.Errorf("README shows %d tables of passes", len(shown))
	}
	if !strings.Contains(readme, "]("+readmePicture+")") {
		t.Error("README shows no drawing")
	}
	drawing := firstDrawing(t, readText(t, "golden/lock-winch/sheet.html"))
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile(filepath.FromSlash(readmePicture), []byte(drawing), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if readText(t, readmePicture) != drawing {
		t.Errorf("%s is not the first drawing of the sheet; UPDATE_GOLDEN=1 rewrites it", readmePicture)
	}
}

// firstTable is what is printed of the first visit, from its title to the last of its
// passes.
func firstTable(printed string) string {
	parts := strings.SplitN(printed, "\n\n", 4) // the job; title and sizes; the passes; what bound them
	return parts[1] + "\n\n" + parts[2] + "\n"
}

// README is short, begins with what the program is for, and every command that
// it names is one.
func TestReadmeIsShort(t *testing.T) {
	readme := readText(t, "../../README.md")
	lines := strings.Split(strings.TrimSuffix(readme, "\n"), "\n")
	if len(lines) > 150 {
		t.Errorf("%d lines; 150 are read", len(lines))
	}
	if !strings.HasPrefix(readme, "# borewright\n\nborewright plans the repair of a worn bore") {
		t.Error("it does not begin with the job")
	}
	if blocks := fenced(readme); len(blocks) < 2 || blocks[1] != "go test ./...\n" {
		t.Errorf("the first two commands are %q", blocks[:2])
	}
	var verbs []string
	for _, c := range rootCommand().Commands() {
		verbs = append(verbs, c.Name())
	}
	for _, line := range lines {
		if rest, ok := strings.CutPrefix(line, "borewright "); ok && !strings.HasPrefix(rest, "plans ") {
			if verb, _, _ := strings.Cut(rest, " "); !slices.Contains(verbs, verb) {
				t.Errorf("%q is no command: %s", verb, line)
			}
		}
	}
}

// fenced are the blocks of a page between lines of ```.
func fenced(page string) []string {
	var out []string
	for i, part := range strings.Split("\n"+page, "\n```") {
		if i%2 == 1 {
			_, block, _ := strings.Cut(part, "\n")
			out = append(out, block+"\n")
		}
	}
	return out
}

// firstDrawing is the first drawing of an HTML sheet as a file of its own, on
// white: a page that shows it may be dark.
func firstDrawing(t *testing.T, html string) string {
	t.Helper()
	before, _, _ := strings.Cut(html, ">Setup drawing</title>")
	_, svg, ok := strings.Cut(html[max(0, strings.LastIndex(before, "<svg")):], "<svg")
	svg, _, end := strings.Cut(svg, "</svg>")
	if !ok || !end {
		t.Fatal("no drawing in the sheet")
	}
	return "<svg" + strings.Replace(svg, "</desc>\n", "</desc>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n", 1) + "</svg>\n"
}

func readText(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
