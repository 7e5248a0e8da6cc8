// Systems sees that the program can be built for the systems that it is told, in a twentieth of the time
// of building it: all files that a build takes are type-checked with the sizes of that processor (of the
// standard library without the bodies of its functions, which others build for each system). What a
// compiler or a linker could still miss then is a body: outside the standard library each function must
// have its own, and none is linked by name. A fault of the compiler itself stays unseen.
//
//	go run .ci/systems.go ./cmd/borewright linux/arm64 windows/amd64
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
)

// listed is a package as go list -json has it.
type listed struct {
	ImportPath, Dir string
	GoFiles, SFiles []string
	EmbedFiles      []string // go list says which are missing
	ImportMap       map[string]string
	Standard        bool
	Module          *struct{ GoVersion string }
}

// source is a file, parsed once for all systems.
type source struct {
	once sync.Once
	file *ast.File
	err  error
}

var (
	places = token.NewFileSet()
	files  sync.Map // of *source, by path
)

func parsed(path string) (*ast.File, error) {
	at, _ := files.LoadOrStore(path, &source{})
	s := at.(*source)
	s.once.Do(func() {
		s.file, s.err = parser.ParseFile(places, path, nil, parser.SkipObjectResolution|parser.ParseComments)
	})
	return s.file, s.err
}

// check gives back all that is wrong with the program on one system.
func check(program, system string) error {
	on, processor, _ := strings.Cut(system, "/")
	list := exec.Command("go", "list", "-deps", "-json=ImportPath,Dir,GoFiles,SFiles,EmbedFiles,ImportMap,Standard,Module", program)
	list.Env = append(os.Environ(), "GOOS="+on, "GOARCH="+processor, "CGO_ENABLED=0")
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return err
	}
	sizes := types.SizesFor("gc", processor)
	if sizes == nil {
		return fmt.Errorf("no sizes are known for %s", processor)
	}
	var wrong []error
	made := map[string]*types.Package{"unsafe": types.Unsafe}
	for in := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := in.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			return err
		}
		if p.ImportPath == "unsafe" {
			continue
		}
		var read []*ast.File
		for _, name := range p.GoFiles {
			f, err := parsed(filepath.Join(p.Dir, name))
			if err != nil {
				wrong = append(wrong, err)
				continue
			}
			if !p.Standard {
				wrong = append(wrong, unlinked(f, len(p.SFiles) > 0)...)
			}
			read = append(read, f)
		}
		version := ""
		if p.Module != nil && p.Module.GoVersion != "" {
			version = "go" + p.Module.GoVersion
		}
		config := types.Config{
			Importer: importer(func(path string) (*types.Package, error) {
				if as, is := p.ImportMap[path]; is {
					path = as
				}
				if q := made[path]; q != nil {
					return q, nil
				}
				return nil, fmt.Errorf("%s is none of what go list names", path)
			}),
			Sizes: sizes, GoVersion: version, IgnoreFuncBodies: p.Standard, FakeImportC: true,
			Error: func(err error) { wrong = append(wrong, err) },
		}
		made[p.ImportPath], _ = config.Check(p.ImportPath, places, read, nil)
	}
	return errors.Join(wrong...)
}

type importer func(path string) (*types.Package, error)

func (i importer) Import(path string) (*types.Package, error) { return i(path) }

// unlinked are what only the linker could find missing. In a package with assembly a function has its body there.
func unlinked(f *ast.File, assembly bool) (wrong []error) {
	for _, d := range f.Decls {
		if d, is := d.(*ast.FuncDecl); is && d.Body == nil && !assembly {
			wrong = append(wrong, fmt.Errorf("%s: function without a body", places.Position(d.Pos())))
		}
	}
	for _, group := range f.Comments {
		for _, c := range group.List {
			if strings.HasPrefix(c.Text, "//go:linkname ") {
				wrong = append(wrong, fmt.Errorf("%s: a link by name", places.Position(c.Pos())))
			}
		}
	}
	return wrong
}

func main() {
	failed := false
	for _, system := range os.Args[2:] {
		fmt.Println(system)
		if err := check(os.Args[1], system); err != nil {
			fmt.Println(err)
			failed = true
		}
	}
	if failed {
		os.Exit(1)
	}
}
