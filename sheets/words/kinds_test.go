package words

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/process/fact"
)

// Every kind that a room declares has words, every entry has a kind, and no
// kind has two entries.
func TestEveryKindHasWords(t *testing.T) {
	found := scan(t, "../..")
	worded := map[fact.Kind]int{}
	for _, room := range rooms {
		for k := range room {
			worded[k]++
		}
	}
	for _, fault := range unmatched(found, worded) {
		t.Error(fault)
	}
	for _, fault := range found.faults {
		t.Error(fault)
	}
}

// A template uses every argument that its facts are made with, and only those.
func TestTemplatesUseTheirArguments(t *testing.T) {
	found := scan(t, "../..")
	for _, room := range rooms {
		for k, e := range room {
			for _, fault := range misused(k, always(e), found.made[k]) {
				t.Error(fault)
			}
		}
	}
}

// The checks themselves notice what they are for.
func TestChecksNotice(t *testing.T) {
	const src = `package room
import "borewright/process/fact"
const (
	Deep fact.Kind = "deep"
	Wide fact.Kind = "wide"
	Copy fact.Kind = "deep"
)
func f() { g(fact.New(Deep, a, b), fact.New(Wide)) }
`
	found := newScanned()
	file, err := parser.ParseFile(token.NewFileSet(), "room.go", src, 0)
	if err != nil {
		t.Fatal(err)
	}
	found.file("room.go", file)
	found.resolve()
	if len(found.faults) != 1 || !strings.Contains(found.faults[0], "deep") {
		t.Errorf("two kinds of one name: %q", found.faults)
	}
	if got := unmatched(found, map[fact.Kind]int{"deep": 2, "gone": 1}); len(got) != 3 {
		t.Errorf("one without words, one without a kind, one twice: %q", got)
	}
	for text, want := range map[string]int{"{1} of {2}": 0, "{1..2}": 0, "{1}{? and {2}}": 0, "{1} {2}{? {3}}": 0, "{1}": 1, "{1} {2} {3}": 1, "{1} {2": 1, "{1} {2:loud}": 1, "{x} {1} {2}": 1} {
		if got := misused("deep", text, found.made["deep"]); len(got) != want {
			t.Errorf("%q with two arguments: %q", text, got)
		}
	}
}

// scanned is what the source declares and makes.
type scanned struct {
	declared map[fact.Kind]string // where
	names    map[string]fact.Kind // by package and name of the constant
	calls    []call
	made     map[fact.Kind][]int // how many arguments facts of a kind are made with
	faults   []string
}

type call struct {
	name string
	args int
}

func newScanned() *scanned {
	return &scanned{declared: map[fact.Kind]string{}, names: map[string]fact.Kind{}, made: map[fact.Kind][]int{}}
}

// scan reads all that is not a test under root.
func scan(t *testing.T, root string) *scanned {
	t.Helper()
	found, files := newScanned(), token.NewFileSet()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || d.Name() == "golden" || strings.HasPrefix(d.Name(), ".") && path != root):
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
			return nil
		}
		file, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
		if err == nil {
			found.file(path, file)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	found.resolve()
	return found
}

func (s *scanned) file(path string, file *ast.File) {
	qualified := func(e ast.Expr) string {
		switch e := e.(type) {
		case *ast.Ident:
			return file.Name.Name + "." + e.Name
		case *ast.SelectorExpr:
			if p, ok := e.X.(*ast.Ident); ok {
				return p.Name + "." + e.Sel.Name
			}
		}
		return ""
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ValueSpec:
			if n.Type == nil || qualified(n.Type) != "fact.Kind" {
				return true
			}
			for i, name := range n.Names {
				if i >= len(n.Values) {
					continue
				}
				lit, ok := n.Values[i].(*ast.BasicLit)
				if !ok {
					continue
				}
				text, _ := strconv.Unquote(lit.Value)
				if at, twice := s.declared[fact.Kind(text)]; twice {
					s.faults = append(s.faults, fmt.Sprintf("kind %q is declared in %s and in %s", text, at, path))
				}
				s.declared[fact.Kind(text)] = path
				s.names[file.Name.Name+"."+name.Name] = fact.Kind(text)
			}
		case *ast.CallExpr:
			if qualified(n.Fun) == "fact.New" && len(n.Args) > 0 && !n.Ellipsis.IsValid() {
				s.calls = append(s.calls, call{qualified(n.Args[0]), len(n.Args) - 1})
			}
		}
		return true
	})
}

// resolve tells the kinds of the calls.
func (s *scanned) resolve() {
	for _, c := range s.calls {
		if k, ok := s.names[c.name]; ok {
			s.made[k] = append(s.made[k], c.args)
		}
	}
}

func unmatched(found *scanned, worded map[fact.Kind]int) []string {
	var out []string
	for _, k := range slices.Sorted(maps.Keys(found.declared)) {
		if worded[k] == 0 {
			out = append(out, fmt.Sprintf("kind %q of %s has no words", k, found.declared[k]))
		}
	}
	for _, k := range slices.Sorted(maps.Keys(worded)) {
		switch {
		case found.declared[k] == "":
			out = append(out, fmt.Sprintf("words for %q, which no room declares", k))
		case worded[k] > 1:
			out = append(out, fmt.Sprintf("kind %q has %d entries", k, worded[k]))
		}
	}
	return out
}

// always is the template of an entry that has but one: "" for one that chooses
// by the fact.
func always(e entry) string {
	none, some := e(fact.Fact{}), e(fact.New("x", fact.Name("a"), fact.Name("b"), fact.Name("c"), fact.Name("d"), fact.Name("e"), fact.Name("f")))
	if none != some {
		return ""
	}
	return none
}

// misused says what is wrong with a template of facts that are made with so
// many arguments.
func misused(k fact.Kind, template string, made []int) []string {
	if template == "" {
		return nil
	}
	used, fault := places(template)
	if fault != "" {
		return []string{fmt.Sprintf("%q: %s: %s", k, template, fault)}
	}
	for _, n := range made {
		for i := range n {
			if _, said := used[i+1]; !said {
				return []string{fmt.Sprintf("%q: %s never says argument %d", k, template, i+1)}
			}
		}
		for i, always := range used {
			if i > n && always {
				return []string{fmt.Sprintf("%q: %s says argument %d, and there are %d", k, template, i, n)}
			}
		}
	}
	return nil
}

// places lists the arguments that a template says, true where it needs them
// and false where it can do without.
func places(template string) (used map[int]bool, fault string) {
	used = map[int]bool{}
	if strings.Count(template, "{") != strings.Count(template, "}") {
		return used, "braces do not pair"
	}
	var walk func(template string, needed bool) string
	walk = func(template string, needed bool) string {
		for template != "" {
			open := strings.IndexByte(template, '{')
			if open < 0 {
				return ""
			}
			var inside string
			inside, template = braces(template[open:])
			if optional, ok := strings.CutPrefix(inside, "?"); ok {
				if fault := walk(optional, false); fault != "" {
					return fault
				}
				continue
			}
			numbers, how, _ := strings.Cut(inside, ":")
			if !slices.Contains([]string{"", "bare", "key", "both", "limits", "sentence", "name", "and", "or", ";", "then", "begin"}, how) && !strings.Contains(how, "|") {
				return "no such form: " + how
			}
			for number := range strings.SplitSeq(numbers, "..") {
				n, err := strconv.Atoi(number)
				if err != nil || n < 1 {
					return "not an argument: " + number
				}
				used[n] = used[n] || needed
			}
		}
		return ""
	}
	return used, walk(template, true)
}
