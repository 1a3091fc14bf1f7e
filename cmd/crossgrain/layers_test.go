package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The layers, lowest first. A package may import from lower ones, itself only
// what insideLayer allows.
var layerOrder = []string{"model", "pack", "yardage", "reports", "cmd"}

// insideLayer lists the imports between packages of one layer.
var insideLayer = map[string][]string{
	"model/geometry":  {"model"},
	"model/block":     {"model", "model/geometry"},
	"model/setting":   {"model", "model/geometry", "model/block"},
	"model/design":    {"model", "model/geometry", "model/block", "model/setting"},
	"model/quiltfile": {"model", "model/geometry", "model/block", "model/setting", "model/design"},
	"model/quiltbook": {"model", "model/quiltfile"},
	"pack":            {"pack/glpk"},
	"reports":         {"reports/drawing"},
}

// libraryHomes says where each library from outside the standard one may be
// used. A new library needs a line here. In tests, anyTest holds as well.
var libraryHomes = map[string][]string{
	"C":                                     {"pack/glpk"},
	"codeberg.org/go-pdf/fpdf":              {"reports", "reports/drawing"},
	"github.com/jedib0t/go-pretty":          {"reports", "cmd/crossgrain"},
	"github.com/mattn/go-runewidth":         {"reports"},
	"github.com/urfave/cli":                 {"cmd/crossgrain"},
	"github.com/xuri/excelize":              {"reports", "model/quiltbook"},
	"go.yaml.in/yaml":                       {"model/quiltfile"},
	"golang.org/x/image":                    {"reports/drawing"},
	"golang.org/x/term":                     {"cmd/crossgrain"},
	"golang.org/x/text":                     {"reports", "reports/drawing", "model/quiltfile"},
	"github.com/chromedp/cdproto":           {anyTest},
	"github.com/chromedp/chromedp":          {anyTest},
	"github.com/google/go-cmp":              {anyTest},
	"github.com/rogpeppe/go-internal":       {anyTest},
	"github.com/santhosh-tekuri/jsonschema": {anyTest},
	"pgregory.net/rapid":                    {anyTest},
}

// anyTest is the home of libraries for tests.
const anyTest = "_test.go"

// exactPackages measure in whole numbers: no floating point in what they
// export.
var exactPackages = []string{"model", "model/geometry", "model/block", "model/setting", "model/design", "pack", "yardage"}

// topFolders are all folders of the top level, besides bin, which is built,
// and those whose names begin with a dot.
var topFolders = []string{"cmd", "model", "pack", "reports", "testdata", "yardage"}

func TestLayers(t *testing.T) {
	complaints, err := layerComplaints("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range complaints {
		t.Error(c)
	}
}

// layerComplaints checks the module in the folder root and returns a line for
// everything that breaks a rule. It reads the files rather than asking go
// list, to see those of every build tag.
func layerComplaints(root string) ([]string, error) {
	complaints, err := topFolderComplaints(root)
	if err != nil {
		return nil, err
	}
	err = filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		local, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		local = filepath.ToSlash(local)
		if entry.IsDir() {
			base := path.Base(local)
			if base == "testdata" || local == "bin" || strings.HasPrefix(base, ".") && local != "." {
				return filepath.SkipDir
			}
			return nil
		}
		if path.Ext(local) != ".go" {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		complaints = append(complaints, importComplaints(local, file)...)
		complaints = append(complaints, floatComplaints(local, file)...)
		return nil
	})
	return complaints, err
}

func topFolderComplaints(root string) ([]string, error) {
	entries, err := os.ReadDir(root)
	if err != nil {
		return nil, err
	}
	var complaints []string
	for _, e := range entries {
		name := e.Name()
		if e.IsDir() && name != "bin" && !strings.HasPrefix(name, ".") && !slices.Contains(topFolders, name) {
			complaints = append(complaints, name+": not one of the top folders")
		}
	}
	return complaints, nil
}

func importComplaints(local string, file *ast.File) []string {
	importer := path.Dir(local)
	isTest := strings.HasSuffix(local, anyTest)
	var complaints []string
	if layerOf(importer) < 0 {
		complaints = append(complaints, local+": in no layer")
	}
	for _, spec := range file.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			imported = spec.Path.Value
		}
		if reason := importFault(importer, imported, isTest); reason != "" {
			complaints = append(complaints, fmt.Sprintf("%s: imports %q: %s", local, imported, reason))
		}
	}
	return complaints
}

// importFault says why a package must not import another; "" if it may.
func importFault(importer, imported string, isTest bool) string {
	if ours, ok := strings.CutPrefix(imported, "crossgrain/"); ok {
		from, to := layerOf(importer), layerOf(ours)
		switch {
		case to < 0:
			return "in no layer"
		case to < from:
			return ""
		case to > from:
			return "a higher layer"
		case isTest && ours == importer: // from the package's outer test
			return ""
		case !slices.Contains(insideLayer[importer], ours):
			return "beside it in its layer"
		}
		return ""
	}
	first, _, _ := strings.Cut(imported, "/")
	if imported != "C" && !strings.Contains(first, ".") {
		return "" // the standard library
	}
	for library, homes := range libraryHomes {
		if imported != library && !strings.HasPrefix(imported, library+"/") {
			continue
		}
		if slices.Contains(homes, importer) || isTest && slices.Contains(homes, anyTest) {
			return ""
		}
		return "allowed only in " + strings.Join(homes, ", ")
	}
	return "a library without a line in libraryHomes"
}

// layerOf is the place of a package's layer in layerOrder, −1 if it has none.
func layerOf(local string) int {
	top, _, _ := strings.Cut(local, "/")
	return slices.Index(layerOrder, top)
}

// floatComplaints finds floating point in what an exact package exports.
func floatComplaints(local string, file *ast.File) []string {
	if !slices.Contains(exactPackages, path.Dir(local)) || strings.HasSuffix(local, anyTest) {
		return nil
	}
	var complaints []string
	report := func(name string, nodes ...ast.Node) {
		for _, n := range nodes {
			if word := floatIn(n); word != "" {
				complaints = append(complaints, fmt.Sprintf("%s: exports %s with a %s", local, name, word))
			}
		}
	}
	for _, decl := range file.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() {
				report(d.Name.Name, d.Type)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch s := spec.(type) {
				case *ast.TypeSpec:
					if s.Name.IsExported() {
						report(s.Name.Name, s.Type)
						if s.TypeParams != nil {
							report(s.Name.Name, s.TypeParams)
						}
					}
				case *ast.ValueSpec:
					reportValues(s, report)
				}
			}
		}
	}
	return complaints
}

// reportValues looks at a declaration of constants or variables: at its type,
// and at the values that give an exported one its type.
func reportValues(s *ast.ValueSpec, report func(string, ...ast.Node)) {
	for i, name := range s.Names {
		if !name.IsExported() {
			continue
		}
		if s.Type != nil {
			report(name.Name, s.Type)
		} else if i < len(s.Values) {
			report(name.Name, s.Values[i])
		}
	}
}

// floatIn finds the first floating-point type or literal that a reader of the
// node would meet: not in unexported fields, nor in the bodies of functions.
func floatIn(node ast.Node) string {
	found := ""
	ast.Inspect(node, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BlockStmt:
			return false
		case *ast.StructType:
			for _, field := range n.Fields.List {
				exported := len(field.Names) == 0 // embedded
				for _, name := range field.Names {
					exported = exported || name.IsExported()
				}
				if exported && found == "" {
					found = floatIn(field.Type)
				}
			}
			return false
		case *ast.Ident:
			switch n.Name {
			case "float32", "float64", "complex64", "complex128":
				found = n.Name
			}
		case *ast.BasicLit:
			if n.Kind == token.FLOAT {
				found = "number " + n.Value
			}
		}
		return found == ""
	})
	return found
}

// Each rule is broken once here, so that a rule that has stopped working
// shows.
func TestLayersSeesEveryKindOfBreach(t *testing.T) {
	root := t.TempDir()
	files := map[string]string{
		"model/a.go":            `import _ "crossgrain/pack"`,
		"model/b.go":            `import _ "crossgrain/model/quiltfile"`,
		"model/c.go":            `import _ "pgregory.net/rapid"`,
		"model/d_test.go":       `import _ "pgregory.net/rapid"; import _ "crossgrain/model"; import _ "math"`,
		"model/e_test.go":       `import _ "crossgrain/yardage"`,
		"model/quiltfile/a.go":  `import _ "go.yaml.in/yaml/v4"; import _ "crossgrain/model"`,
		"pack/a.go":             `import "C"; import _ "crossgrain/pack/glpk"; import _ "crossgrain/model"`,
		"pack/glpk/a.go":        "//go:build cgo\n" + `import "C"; import _ "crossgrain/pack"`,
		"yardage/a.go":          `import _ "github.com/xuri/excelize/v2"; import _ "example.org/new"`,
		"reports/a.go":          `import _ "github.com/xuri/excelize/v2"; import _ "crossgrain/model"; import _ "crossgrain/cmd/crossgrain"`,
		"reports/b.go":          `import _ "github.com/urfave/cli/v2"; import _ "crossgrain/other"`,
		"cmd/crossgrain/a.go":   `import _ "github.com/urfave/cli/v2"; import _ "crossgrain/reports"`,
		"other/a.go":            ``,
		"bin/a.go":              `import _ "example.org/not/ours"`,
		".hidden/a.go":          `import _ "example.org/not/ours"`,
		"model/testdata/a.go":   `import _ "example.org/not/ours"`,
		"yardage/func.go":       `func F(a int, b []float64) {}; func g() float64 { return 0.5 }`,
		"yardage/method.go":     `type t int; func (t) M() (x map[string]float32) { return }`,
		"yardage/struct.go":     `type S struct { A int; B *float64; c float64 }; type s struct { D float64 }`,
		"yardage/value.go":      `const Half = 0.5; const third, Whole = 0.3, 1; var V func() float64`,
		"yardage/named.go":      `type N float64; type I interface { M(complex128) }`,
		"yardage/body.go":       `var W = func() int { return int(0.5) }`,
		"yardage/value_test.go": `const HalfInTest = 0.5`,
		"pack/glpk/value.go":    `var Value []float64`,
	}
	for name, body := range files {
		name = filepath.Join(root, filepath.FromSlash(name))
		head, rest, tagged := strings.Cut(body, "\n")
		if !tagged {
			head, rest = "", body
		}
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(head+"\n\npackage p;"+rest+"\n"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want := []string{
		`model/a.go: imports "crossgrain/pack": a higher layer`,
		`model/b.go: imports "crossgrain/model/quiltfile": beside it in its layer`,
		`model/c.go: imports "pgregory.net/rapid": allowed only in _test.go`,
		`model/e_test.go: imports "crossgrain/yardage": a higher layer`,
		`other/a.go: in no layer`,
		`other: not one of the top folders`,
		`pack/a.go: imports "C": allowed only in pack/glpk`,
		`pack/glpk/a.go: imports "crossgrain/pack": beside it in its layer`,
		`reports/a.go: imports "crossgrain/cmd/crossgrain": a higher layer`,
		`reports/b.go: imports "crossgrain/other": in no layer`,
		`reports/b.go: imports "github.com/urfave/cli/v2": allowed only in cmd/crossgrain`,
		`yardage/a.go: imports "example.org/new": a library without a line in libraryHomes`,
		`yardage/a.go: imports "github.com/xuri/excelize/v2": allowed only in reports, model/quiltbook`,
		`yardage/func.go: exports F with a float64`,
		`yardage/method.go: exports M with a float32`,
		`yardage/named.go: exports I with a complex128`,
		`yardage/named.go: exports N with a float64`,
		`yardage/struct.go: exports S with a float64`,
		`yardage/value.go: exports Half with a number 0.5`,
		`yardage/value.go: exports V with a float64`,
	}
	got, err := layerComplaints(root)
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("got:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
