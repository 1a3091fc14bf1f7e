package main

import (
	"bufio"
	"fmt"
	"io"
)

// program is an integer program: the least sum of the objective's terms.
type program struct {
	objective []term
	rows      []constraint
	variables []variable
}

// term is a variable, by its index, times a number.
type term struct{ times, variable int }

// constraint is a sum of terms, a relation (=, <= or >=) and a number.
type constraint struct {
	terms    []term
	relation string
	right    int
}

// variable is at least 0, and at most most if that is not 0.
type variable struct {
	whole bool
	most  int
}

func (p *program) add(v variable) int {
	p.variables = append(p.variables, v)
	return len(p.variables) - 1
}

func (p *program) require(terms []term, relation string, right int) {
	p.rows = append(p.rows, constraint{terms, relation, right})
}

// write writes the program in the LP format of CPLEX, a term to a line: some
// readers limit the length of lines. Variables are named after their indices.
func (p *program) write(w io.Writer) error {
	b := bufio.NewWriter(w) // keeps the first error for Flush
	sum := func(terms []term) {
		for _, t := range terms {
			fmt.Fprintf(b, "  %+d x%d\n", t.times, t.variable)
		}
	}
	fmt.Fprint(b, "Minimize\n length:\n")
	sum(p.objective)
	fmt.Fprint(b, "Subject To\n")
	for i, row := range p.rows {
		fmt.Fprintf(b, " r%d:\n", i)
		sum(row.terms)
		fmt.Fprintf(b, "  %s %d\n", row.relation, row.right)
	}
	fmt.Fprint(b, "Bounds\n")
	for i, v := range p.variables {
		if v.most > 0 {
			fmt.Fprintf(b, " 0 <= x%d <= %d\n", i, v.most)
		}
	}
	fmt.Fprint(b, "Generals\n")
	for i, v := range p.variables {
		if v.whole {
			fmt.Fprintf(b, " x%d\n", i)
		}
	}
	fmt.Fprint(b, "End\n")
	return b.Flush()
}
