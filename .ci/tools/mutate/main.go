// Command mutate breaks the code one small place at a time and asks the tests
// whether they notice. It is no part of the gate.
//
//	go run -C .ci/tools ./mutate -seed 1 -n 300
//
// Every place of the packages that can be broken is listed (a constant, a
// comparison, an operator, a dropped statement, a negated condition, a returned
// truth value), a seeded sample is drawn, and for each the short tests of its
// package run on the broken source, which lies beside the tree by go test
// -overlay; where they pass, those of the packages that use it and are named in
// holders run too, one after another. What still passes is a survivor and is
// printed. A break that
// does not compile is left out; one that never ends counts as noticed.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"
	"time"
)

// mutant is one break: the bytes from..to of a file replaced.
type mutant struct {
	file     string // relative to the root
	line     int
	from, to int
	with     string
	what     string
	source   string // the line as it is
}

// holders are the packages whose tests hold others: those that work through the
// public door.
func holders() map[string][]string {
	return map[string][]string{
		"process/": {"process/files", "process/passes", "process/plan", "process/revision", "sheets", "cmd/borewright"},
		"post/":    {"post", "post/verify", "cmd/borewright"},
	}
}

func main() {
	root := flag.String("root", "../..", "root of the module")
	seed := flag.Uint64("seed", 1, "of the sample")
	n := flag.Int("n", 300, "how many breaks to try")
	in := flag.String("in", "process,post", "folders to break, with commas between")
	only := flag.String("file", "", "only files whose path holds this")
	line := flag.Int("line", 0, "only this line of those files")
	of := flag.String("of", "", "only breaks whose description holds this, as \"becomes (2*\" for constants")
	own := flag.Bool("own", false, "only the tests of the package itself")
	jobs := flag.Int("j", 2, "tests at a time")
	limit := flag.Duration("stop", time.Hour, "begin no break after this long")
	flag.Parse()
	more := holders()
	if *own {
		more = nil
	}
	if err := run(*root, more, strings.Split(*in, ","), *only, *of, *line, *seed, *n, *jobs, *limit); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(root string, more map[string][]string, folders []string, only, of string, line int, seed uint64, n, jobs int, limit time.Duration) error {
	root, err := filepath.Abs(root)
	if err != nil {
		return err
	}
	all, err := places(root, folders, only)
	if err != nil {
		return err
	}
	all = slices.DeleteFunc(all, func(m mutant) bool { return line > 0 && m.line != line || !strings.Contains(m.what, of) })
	rng := rand.New(rand.NewPCG(seed, 0))
	rng.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	sample := all[:min(n, len(all))]
	fmt.Printf("%d places that can be broken, %d of them drawn with seed %d\n", len(all), len(sample), seed)
	var mu sync.Mutex
	var wait sync.WaitGroup
	count := map[string]int{}
	byPackage := map[string][2]int{} // noticed, survived
	var survivors []mutant
	next := make(chan mutant)
	for range jobs {
		wait.Go(func() {
			for m := range next {
				verdict := try(root, more, m)
				mu.Lock()
				count[verdict]++
				p := byPackage[filepath.Dir(m.file)]
				switch verdict {
				case "noticed":
					p[0]++
				case "survived":
					p[1]++
					survivors = append(survivors, m)
					fmt.Printf("survived %s:%d: %s\n\t%s\n", m.file, m.line, m.what, m.source)
				}
				byPackage[filepath.Dir(m.file)] = p
				mu.Unlock()
			}
		})
	}
	begun := time.Now()
	for _, m := range sample {
		if time.Since(begun) > limit {
			fmt.Println("stopped by the clock")
			break
		}
		next <- m
	}
	close(next)
	wait.Wait()
	var names []string
	for p := range byPackage {
		names = append(names, p)
	}
	sort.Strings(names)
	for _, p := range names {
		k := byPackage[p]
		fmt.Printf("%-20s %3d noticed, %3d survived\n", p, k[0], k[1])
	}
	live := count["noticed"] + count["survived"]
	fmt.Printf("%d noticed of %d that compile: %.1f %%; %d do not compile\n", count["noticed"], live, 100*float64(count["noticed"])/float64(max(1, live)), count["not built"])
	return nil
}

// places lists every break of every file.
func places(root string, folders []string, only string) ([]mutant, error) {
	var out []mutant
	for _, folder := range folders {
		err := filepath.WalkDir(filepath.Join(root, folder), func(path string, d fs.DirEntry, err error) error {
			rel, _ := filepath.Rel(root, path)
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || !strings.Contains(rel, only) {
				return err
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			list, err := breaks(rel, data)
			out = append(out, list...)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// swaps are the operators put in each other's place.
var swaps = map[token.Token][]string{
	token.LSS: {"<=", ">="}, token.LEQ: {"<", ">"}, token.GTR: {">=", "<="}, token.GEQ: {">", "<"},
	token.EQL: {"!="}, token.NEQ: {"=="}, token.LAND: {"||"}, token.LOR: {"&&"},
	token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.QUO: {"*"},
}

// breaks lists the breaks of one file.
func breaks(name string, data []byte) ([]mutant, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, data, 0)
	if err != nil {
		return nil, err
	}
	lines := strings.Split(string(data), "\n")
	var out []mutant
	put := func(from, to token.Pos, with, what string) {
		p := set.Position(from)
		out = append(out, mutant{name, p.Line, p.Offset, set.Position(to).Offset, with, what, strings.TrimSpace(lines[p.Line-1])})
	}
	text := func(n ast.Node) string {
		return string(data[set.Position(n.Pos()).Offset:set.Position(n.End()).Offset])
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec, *ast.Field: // no code in them
			return false
		case *ast.BasicLit:
			if n.Kind == token.INT || n.Kind == token.FLOAT {
				with := "(2*" + n.Value + ")"
				if v, err := strconv.ParseFloat(n.Value, 64); err == nil && v == 0 {
					with = "1"
				}
				put(n.Pos(), n.End(), with, n.Value+" becomes "+with)
			}
		case *ast.BinaryExpr:
			for _, op := range swaps[n.Op] {
				put(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), op, n.Op.String()+" becomes "+op)
			}
		case *ast.IfStmt:
			put(n.Cond.Pos(), n.Cond.End(), "!("+text(n.Cond)+")", "the condition is turned round")
		case *ast.ExprStmt, *ast.IncDecStmt, *ast.DeferStmt:
			put(n.Pos(), n.End(), "", "left out: "+text(n))
		case *ast.AssignStmt:
			if n.Tok != token.DEFINE && len(n.Lhs) == 1 {
				put(n.Pos(), n.End(), "", "left out: "+text(n))
			}
		case *ast.ReturnStmt:
			for _, r := range n.Results {
				if id, ok := r.(*ast.Ident); ok && (id.Name == "true" || id.Name == "false") {
					put(id.Pos(), id.End(), "!"+id.Name, "returns !"+id.Name)
				}
			}
		}
		return true
	})
	return out, nil
}

// try breaks one place and runs the tests that hold it: "noticed", "survived"
// or "not built".
func try(root string, holders map[string][]string, m mutant) string {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return "not built"
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(root, m.file)
	data, err := os.ReadFile(path)
	if err != nil || m.to > len(data) {
		return "not built"
	}
	broken := filepath.Join(dir, filepath.Base(m.file))
	overlay := filepath.Join(dir, "overlay.json")
	what, _ := json.Marshal(map[string]map[string]string{"Replace": {path: broken}})
	if os.WriteFile(broken, []byte(string(data[:m.from])+m.with+string(data[m.to:])), 0o600) != nil || os.WriteFile(overlay, what, 0o600) != nil {
		return "not built"
	}
	own := filepath.Dir(m.file)
	if text, err := golang(root, "build", "-overlay", overlay, "./"+own); err != nil && text != "" {
		return "not built"
	}
	packages := []string{own}
	for prefix, more := range holders {
		if strings.HasPrefix(own+"/", prefix) {
			packages = append(packages, more...)
		}
	}
	done := map[string]bool{}
	for _, p := range packages {
		if done[p] {
			continue
		}
		done[p] = true
		if _, err := golang(root, "test", "-overlay", overlay, "-short", "-failfast", "-vet=off", "-timeout", "300s", "./"+p); err != nil {
			return "noticed"
		}
	}
	return "survived"
}

// golang runs the go command, six minutes at most.
func golang(root string, args ...string) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), 6*time.Minute)
	defer cancel()
	c := exec.CommandContext(ctx, "go", args...)
	c.Dir = root
	out, err := c.CombinedOutput()
	return string(out), err
}
