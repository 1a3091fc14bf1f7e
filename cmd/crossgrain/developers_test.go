package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var documents = []string{readme, "../../DEVELOPERS.md"}

// Files and folders that the documents name are there: those of a link, and
// names in backticks of a file of ours or with a folder of ours before them.
func TestDocumentsNameFiles(t *testing.T) {
	top := strings.Join(topFolders, "|")
	named := regexp.MustCompile(`^(\.ci/run|LICENSE|Makefile|(` + top + `)(/[\w./]+)?|\w+\.(go|c|json|md))$`)
	link := regexp.MustCompile(`\]\(([\w./]+)\)`)
	files := map[string]bool{}
	if err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err == nil && entry.Name() == ".git" {
			return filepath.SkipDir
		}
		files[filepath.Base(path)] = true
		return err
	}); err != nil {
		t.Fatal(err)
	}
	for _, doc := range documents {
		text, seen := document(t, doc), 0
		names := coded(text)
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			names = append(names, m[1])
		}
		for _, name := range names {
			if !named.MatchString(name) || name == "json" {
				continue
			}
			seen++
			_, err := os.Stat(filepath.Join("../..", name))
			if err != nil && (strings.Contains(name, "/") || !files[name]) {
				t.Errorf("%s names %s, which is not there", doc, name)
			}
		}
		if seen == 0 {
			t.Errorf("%s names no file", doc)
		}
	}
}

// DEVELOPERS.md has every package of ours.
func TestDevelopersHasPackages(t *testing.T) {
	text := document(t, "../../DEVELOPERS.md")
	sources, err := filepath.Glob("../../*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	deeper, err := filepath.Glob("../../*/*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range append(sources, deeper...) {
		folder := strings.TrimPrefix(filepath.ToSlash(filepath.Dir(file)), "../../")
		if !strings.Contains(text, "\n| `"+folder+"` |") {
			t.Fatalf("DEVELOPERS.md does not tell of package %s", folder)
		}
	}
}

// Functions, methods and types that the documents name, as package.Name or as
// TestName, are there.
func TestDocumentsNameCode(t *testing.T) {
	declared := map[string]bool{}
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, name := range declarations(file) {
			declared[name] = true
			declared[file.Name.Name+"."+name] = true
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	name := regexp.MustCompile(`^((model|geometry|block|setting|design|quiltfile|pack|glpk|yardage|reports|drawing)\.[A-Za-z]\w*(\.[A-Z]\w*)?|Test\w+)$`)
	notCode := regexp.MustCompile(`\.(go|c|json)$`)
	for _, doc := range documents {
		for _, word := range coded(document(t, doc)) {
			if name.MatchString(word) && !notCode.MatchString(word) && !declared[word] {
				t.Errorf("%s names %s, which is not there", doc, word)
			}
		}
	}
	for _, known := range []string{"pack.Solve", "model.Quilt.CutList", "TestLayers"} {
		if !declared[known] {
			t.Errorf("%s was not seen in the code", known)
		}
	}
}

// declarations are the names that a file declares, methods behind their type.
func declarations(file *ast.File) []string {
	var names []string
	for _, decl := range file.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			name := d.Name.Name
			if d.Recv != nil {
				of := d.Recv.List[0].Type
				if star, ok := of.(*ast.StarExpr); ok {
					of = star.X
				}
				if id, ok := of.(*ast.Ident); ok {
					name = id.Name + "." + name
				}
			}
			names = append(names, name)
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch s := spec.(type) {
				case *ast.TypeSpec:
					names = append(names, s.Name.Name)
				case *ast.ValueSpec:
					for _, n := range s.Names {
						names = append(names, n.Name)
					}
				}
			}
		}
	}
	return names
}

// The documents have every target of the Makefile that one asks for by name,
// and no others.
func TestDocumentsNameTargets(t *testing.T) {
	_, rest, _ := strings.Cut(document(t, "../../Makefile"), "\n.PHONY:")
	phony, _, _ := strings.Cut(rest, "\n")
	targets := map[string]bool{}
	for _, target := range strings.Fields(phony) {
		targets[target] = true
	}
	told := map[string]bool{}
	for _, doc := range documents {
		for _, m := range regexp.MustCompile("`make (\\w+)`").FindAllStringSubmatch(document(t, doc), -1) {
			told[m[1]] = true
			if !targets[m[1]] {
				t.Errorf("%s tells of make %s, which there is not", doc, m[1])
			}
		}
	}
	for target := range targets {
		if !told[target] && !strings.HasSuffix(target, "-needs") {
			t.Errorf("no document tells of make %s", target)
		}
	}
}
