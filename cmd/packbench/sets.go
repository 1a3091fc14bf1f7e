package main

import (
	"fmt"
	"path"
	"path/filepath"

	"crossgrain/model"
	"crossgrain/pack"
)

// set is a set of instances.
type set struct {
	name  string
	files string // a pattern, in the folder of the instances
	// A quilt's unit is 1/16 in, and its cloth is sold by 1/8 yd. A classic
	// problem's is a tick, so small that the tallest strip that a ruler and a
	// mat allow does not shape its plans.
	unit, step model.Length
}

const (
	classicSet = "classic"
	twelveSet  = "twelve"
)

const sixteenth = model.Inch / 16

var sets = []set{
	{"quilts-a", "quilts/a*.json", sixteenth, model.Yard / 8},
	{"quilts-b", "quilts/b*.json", sixteenth, model.Yard / 8},
	{"quilts-c", "quilts/c*.json", sixteenth, model.Yard / 8},
	{classicSet, "classic/*.json", 1, 0},
	{twelveSet, "quilts/a*.json", sixteenth, model.Yard / 8},
}

func setNames() []string {
	var names []string
	for _, s := range sets {
		names = append(names, s.name)
	}
	return names
}

// defaultStyle is the style that a set is meant for.
func defaultStyle(name string) string {
	if name == twelveSet {
		return pack.Nested.String()
	}
	return pack.Shared.String()
}

// load reads the instances that the order asks for, in the order of their
// names.
func load(o order) ([]instance, error) {
	var instances []instance
	for _, s := range sets {
		if s.name != o.set {
			continue
		}
		files, err := filepath.Glob(filepath.Join(o.data, filepath.FromSlash(s.files)))
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			in, err := readInstance(file)
			if err != nil {
				return nil, err
			}
			in.unit, in.step = s.unit, s.step
			if match, _ := path.Match(o.only, in.Name); !match && o.only != "" {
				continue
			}
			if o.turned {
				in = in.turnable()
			}
			instances = append(instances, in)
		}
	}
	if o.set == twelveSet {
		instances = quiltFabrics(instances)
	}
	if len(instances) == 0 {
		return nil, fmt.Errorf("no instance of the set %q in the folder %q matches: "+
			"run packbench in the top folder, or see --data and --only", o.set, o.data)
	}
	return spread(instances, o.sample), nil
}

// spread picks n instances evenly; 0 stands for all.
func spread(all []instance, n int) []instance {
	if n == 0 || n >= len(all) {
		return all
	}
	var some []instance
	for i := range n {
		some = append(some, all[i*len(all)/n])
	}
	return some
}
