package source_test

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"

	"borewright/process/source"
)

// flat is what a file says, path by path, as another library reads it.
func flat(t *testing.T, data []byte) map[string]any {
	t.Helper()
	var m map[string]any
	if _, err := toml.Decode(string(data), &m); err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	out := map[string]any{}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch x := v.(type) {
		case map[string]any:
			for k, e := range x {
				walk(source.Join(path, k), e)
			}
		case []map[string]any:
			for i, e := range x {
				walk(path+"["+strconv.Itoa(i)+"]", e)
			}
		case []any:
			if len(x) > 0 {
				if _, tables := x[0].(map[string]any); tables {
					for i, e := range x {
						walk(path+"["+strconv.Itoa(i)+"]", e)
					}
					return
				}
			}
			out[path] = x
		default:
			out[path] = v
		}
	}
	walk("", m)
	return out
}

// TestEdits changes, takes out and adds at every key of the shipped files: another library
// reads what was meant, and every line that does not hold the key is as it was.
func TestEdits(t *testing.T) {
	var names []string
	for _, pattern := range []string{"../files/catalog/new/*.toml", "../files/catalog/machines/*.toml", "../../testdata/process/good/*.toml"} {
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			t.Fatal(pattern)
		}
		names = append(names, found...)
	}
	if testing.Short() {
		names = names[1:3]
	}
	tried := 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		was := flat(t, data)
		paths := slices.Sorted(maps.Keys(was))
		check := func(what string, e source.Edit, want map[string]any) {
			t.Helper()
			tried++
			out, err := source.Edited(data, e)
			if err != nil {
				t.Fatalf("%s: %s: %v", name, what, err)
			}
			if diff := cmp.Diff(want, flat(t, out)); diff != "" {
				t.Fatalf("%s: %s:\n%s\n%s", name, what, diff, out)
			}
			if n := changed(string(data), string(out)); n > 12 {
				t.Fatalf("%s: %s: %d lines changed", name, what, n)
			}
			back, err := source.Edited(out, source.Edit{Path: e.Path, Value: e.Value})
			if err != nil || e.Value != "" && string(back) != string(out) {
				t.Fatalf("%s: %s: the same again changes it: %v", name, what, err)
			}
		}
		for i, p := range paths {
			if testing.Short() && i%11 > 0 {
				continue
			}
			want := maps.Clone(was)
			want[p] = int64(77)
			check("set "+p, source.Edit{Path: p, Value: "77"}, want)
			want = maps.Clone(was)
			delete(want, p)
			check("take out "+p, source.Edit{Path: p}, want)
			want = maps.Clone(was)
			table := p[:max(0, strings.LastIndexByte(p, '.')+1)]
			want[table+"another"] = "x = [ # }"
			check("add beside "+p, source.Edit{Path: table + "another", Value: `"x = [ # }"`}, want)
			if table != "" && strings.HasSuffix(table, "].") {
				open := strings.LastIndexByte(table, '[')
				n := 0
				for slices.ContainsFunc(paths, func(q string) bool { return strings.HasPrefix(q, table[:open]+"["+strconv.Itoa(n)+"]") }) {
					n++
				}
				next := table[:open] + "[" + strconv.Itoa(n) + "]"
				want = maps.Clone(was)
				want[next+".name"] = "new"
				check("an element more beside "+p, source.Edit{Path: next + ".name", Value: `"new"`}, want)
				if last := table[:open] + "[" + strconv.Itoa(n-1) + "]"; n > 1 {
					want = maps.Clone(was)
					maps.DeleteFunc(want, func(k string, _ any) bool { return strings.HasPrefix(k, last) })
					check("without "+last, source.Edit{Path: last}, want)
				}
			}
		}
		want := maps.Clone(was)
		want["mine.of[0].own"] = int64(1)
		out, err := source.Edited(data, source.Edit{Path: "mine.of[0].own", Value: "1"})
		if err != nil || cmp.Diff(want, flat(t, out)) != "" {
			t.Errorf("%s: a table of a table: %v", name, err)
		}
	}
	t.Log(tried, "edits")
}

// changed is how many lines of one text are not in the other.
func changed(a, b string) (n int) {
	left := map[string]int{}
	for l := range strings.Lines(a) {
		left[l]++
	}
	for l := range strings.Lines(b) {
		if left[l]--; left[l] < 0 {
			n++
		}
	}
	return n
}

// TestEditsOfShapes: values over several lines, remarks in lists, dotted keys, quotes.
func TestEditsOfShapes(t *testing.T) {
	for _, row := range []struct {
		was  string
		edit source.Edit
		want string
	}{
		{"a = [ # one ] two\n  1, # x\n  2 ]\nb = 2\n", source.Edit{Path: "a", Value: "3"}, "a = 3\nb = 2\n"},
		{"u = 1\n# of a\na = 1 # stays\n", source.Edit{Path: "a", Value: "2", Stale: true}, "u = 1\na = 2 # stays\n"},
		{"# of the file\na = 1\n", source.Edit{Path: "a", Value: "2", Stale: true}, "# of the file\na = 2\n"},
		{"f.a = 1\nb = 2\n", source.Edit{Path: "f.c", Value: "3"}, "f.a = 1\nf.c = 3\nb = 2\n"},
		{"f.a = 1\nf.b = 2\nf.c.d = 3\nb = 2\n", source.Edit{Path: "f"}, "b = 2\n"},
		{"t = { a = 1, b = 2 }\n", source.Edit{Path: "t.a"}, "t = { b = 2 }\n"},
		{"t = { a = 1, b = 2 }\n", source.Edit{Path: "t.b"}, "t = { a = 1 }\n"},
		{"t = {}\n", source.Edit{Path: "t.b", Value: "1"}, "t = { b = 1 }\n"},
		{"l = [ { a = 1 } ]\n", source.Edit{Path: "l[1].a", Value: "2"}, "l = [ { a = 1 }, { a = 2 } ]\n"},
		{"l = [\n  { a = 1 }, # first\n]\n", source.Edit{Path: "l[1].a", Value: "2"}, "l = [\n  { a = 1 }, # first\n  { a = 2 },\n]\n"},
		{"l = [\n  { a = 1 } # first\n]\n", source.Edit{Path: "l[1].a", Value: "2"}, "l = [\n  { a = 1 }, # first\n  { a = 2 },\n]\n"},
		{"l = [\n  { a = 1 },\n  { a = 2 },\n]\n", source.Edit{Path: "l[1]"}, "l = [\n  { a = 1 },\n]\n"},
		{"s = '''it's = ] '''\nb = 1\n", source.Edit{Path: "s", Value: "1"}, "s = 1\nb = 1\n"},
		{"\"a = b\" = 1", source.Edit{Path: `"a = b"`, Value: "2"}, "\"a = b\" = 2"},
		{"a = 1", source.Edit{Path: "t.x", Value: "2"}, "a = 1\n\n[t]\nx = 2\n"},
	} {
		got, err := source.Edited([]byte(row.was), row.edit)
		if err != nil || string(got) != row.want {
			t.Errorf("%q with %v: %q, %v", row.was, row.edit, got, err)
		}
	}
	if _, err := source.Edited([]byte("a = 1\n"), source.Edit{Path: "a", Value: "1 2"}); err == nil {
		t.Error("a value that is none goes in")
	}
	// The table of dotted keys is no value: it is not listed, and none of its keys is overwritten by it.
	dotted := []byte("f.a = 1\nf.b.c = 2\n")
	all, err := source.Written(dotted)
	if err != nil || len(all) != 2 || all[0].Path != "f.a" || all[1].Path != "f.b.c" {
		t.Errorf("dotted keys are listed as %v, %v", all, err)
	}
	if got, err := source.Edited(dotted, source.Edit{Path: "f", Value: "{ d = 3 }"}); err == nil {
		t.Errorf("a table goes over its keys: %q", got)
	}
}
