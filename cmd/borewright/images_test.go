package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"borewright/process/slow"
)

// Pages are kept as small pictures, so that one that goes wrong as a whole (a
// drawing gone, a table run off the paper, type in another size) is seen. Words
// are held by the text of the PDF; here a page may differ as much as another
// version of the renderer makes it.
const (
	pageDots  = 24  // dots an inch: a page is about 200 by 270
	pageMean  = 3.0 // mean difference allowed, of 255 gray levels
	patchMost = 60  // most that a patch of an eighth of an inch may differ in the mean
)

// TestPageImages renders every example's PDF and holds each page to its picture
// in golden/pages. UPDATE_GOLDEN=1 rewrites them; look at each before keeping it.
func TestPageImages(t *testing.T) {
	slow.Test(t, "renders every page of every example")
	poppler := program(t, "page pictures", "pdftoppm")
	t.Chdir("../..")
	for _, e := range examples {
		t.Run(e.golden, func(t *testing.T) {
			dir := t.TempDir()
			var out, errs bytes.Buffer
			if code := run([]string{"make", filepath.Join("testdata", "jobs", e.job), "--out", dir}, strings.NewReader(""), &out, &errs); code != exitDone {
				t.Fatal(errs.String())
			}
			if msg, err := exec.Command(poppler, "-r", fmt.Sprint(pageDots), "-gray", "-png", filepath.Join(dir, "sheet.pdf"), filepath.Join(dir, "page")).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, msg)
			}
			got, _ := filepath.Glob(filepath.Join(dir, "page-*.png"))
			sort.Strings(got)
			folder := filepath.Join("golden", "pages", e.golden)
			if os.Getenv("UPDATE_GOLDEN") != "" {
				files := map[string]string{}
				for i, g := range got {
					data, err := os.ReadFile(g)
					if err != nil {
						t.Fatal(err)
					}
					files[fmt.Sprintf("%02d.png", i+1)] = string(data)
				}
				rewrite(t, folder, files)
				return
			}
			want, _ := filepath.Glob(filepath.Join(folder, "*.png"))
			if len(want) != len(got) {
				t.Fatalf("%d pages, %d pictures in %s", len(got), len(want), folder)
			}
			for i := range got {
				if what := pagesDiffer(picture(t, want[i]), picture(t, got[i])); what != "" {
					t.Errorf("page %d: %s", i+1, what)
				}
			}
		})
	}
}

func picture(t *testing.T, path string) *image.Gray {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	g := image.NewGray(p.Bounds())
	for y := g.Rect.Min.Y; y < g.Rect.Max.Y; y++ {
		for x := g.Rect.Min.X; x < g.Rect.Max.X; x++ {
			g.Set(x, y, p.At(x, y))
		}
	}
	return g
}

// pagesDiffer says how two pages differ, or "".
func pagesDiffer(a, b *image.Gray) string {
	if a.Rect != b.Rect {
		return fmt.Sprintf("is %v, the picture %v", b.Rect.Size(), a.Rect.Size())
	}
	w, h := a.Rect.Dx(), a.Rect.Dy()
	total := 0
	const patch = pageDots / 8 * 2
	for y := 0; y < h; y += patch {
		for x := 0; x < w; x += patch {
			sum, n := 0, 0
			for j := y; j < min(y+patch, h); j++ {
				for i := x; i < min(x+patch, w); i++ {
					sum += int(a.GrayAt(i, j).Y) - int(b.GrayAt(i, j).Y)
					n++
				}
			}
			if sum < 0 {
				sum = -sum
			}
			total += sum
			if mean := sum / n; mean > patchMost {
				return fmt.Sprintf("differs by %d gray levels about %d mm from the left, %d mm from the top", mean, x*254/10/pageDots, y*254/10/pageDots)
			}
		}
	}
	if mean := float64(total) / float64(w*h); mean > pageMean {
		return fmt.Sprintf("differs by %.1f gray levels in the mean", mean)
	}
	return ""
}

// The comparison sees what it is there for: a line gone, a page moved.
func TestPagesDifferSees(t *testing.T) {
	page := func(at int) *image.Gray {
		g := image.NewGray(image.Rect(0, 0, 200, 260))
		for i := range g.Pix {
			g.Pix[i] = 255
		}
		for x := 20; x < 180; x++ {
			for y := at; y < at+5; y++ {
				g.Pix[y*g.Stride+x] = 0
			}
		}
		return g
	}
	if what := pagesDiffer(page(40), page(40)); what != "" {
		t.Error(what)
	}
	if pagesDiffer(page(40), page(60)) == "" {
		t.Error("a rule moved by 20 dots is not seen")
	}
}
