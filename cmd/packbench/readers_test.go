package main

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var compareAnswers = cmp.AllowUnexported(answer{})

func TestReadGLPSOL(t *testing.T) {
	const log = `+ 27: mip = not found yet >=              -inf        (1; 0)
+ 62403: mip =   1.418000000e+03 >=   1.408000000e+03   0.7% (189; 639)
TIME LIMIT EXCEEDED; SEARCH TERMINATED
`
	for name, c := range map[string]struct {
		solution, log string
		want          answer
	}{
		"optimal": {"c Status: INTEGER OPTIMAL\ns mip 596 1470 o 1912\n", "+ 3290: mip =   1.912000000e+03 >=     tree is empty   0.0% (0; 837)\n",
			answer{optimal: true, feasible: true, length: 1912, bound: 1912}},
		"stopped": {"s mip 1832 9417 f 1418\n", log, answer{feasible: true, length: 1418, bound: 1408}},
		"no plan": {"s mip 1832 9417 u 0\n", "+ 27: mip =     not found yet >=   1.000000000e+03        (1; 0)\n",
			answer{bound: 1000}},
		"no relaxation": {"s mip 1832 9417 u 0\n", "", answer{bound: math.Inf(-1)}},
	} {
		got, err := readGLPSOL(c.solution, c.log)
		if diff := cmp.Diff(c.want, got, compareAnswers); diff != "" || err != nil {
			t.Errorf("%s: %v (-want +got):\n%s", name, err, diff)
		}
	}
	if _, err := readGLPSOL("s mip 1 1 o 3.5\n", ""); err == nil {
		t.Error("half a unit is a length")
	}
}

func TestReadCBC(t *testing.T) {
	const log = "Result - Stopped on time limit\n\nObjective value:                1424.00000000\n" +
		"Lower bound:                    1396.819\nGap:                            0.02\n"
	for name, c := range map[string]struct {
		solution, log string
		want          answer
	}{
		"optimal": {"Optimal - objective value 1912.00000000\n      0 x0  1  0\n", "",
			answer{optimal: true, feasible: true, length: 1912, bound: 1912}},
		"stopped": {"Stopped on time - objective value 1424.00000000\n", log, answer{feasible: true, length: 1424, bound: 1396.819}},
		"no plan": {"Stopped on time (no integer solution - continuous used) - objective value 1385.08\n", "",
			answer{bound: math.Inf(-1)}},
		"infeasible": {"Infeasible - objective value 12.00000000\n", "", answer{bound: math.Inf(-1)}},
	} {
		got, err := readCBC(c.solution, c.log)
		if diff := cmp.Diff(c.want, got, compareAnswers); diff != "" || err != nil {
			t.Errorf("%s: %v (-want +got):\n%s", name, err, diff)
		}
	}
}

func TestReadHiGHS(t *testing.T) {
	for text, want := range map[string]answer{
		`{"optimal":true,"feasible":true,"length":1911.9999999999966,"bound":1911.9999999999966,"seconds":5.5}`: {
			optimal: true, feasible: true, length: 1912, bound: 1911.9999999999966, seconds: 5.5},
		`{"optimal":false,"feasible":true,"length":1544,"bound":1398,"seconds":21}`: {
			feasible: true, length: 1544, bound: 1398, seconds: 21},
		`{"optimal":false,"feasible":false,"length":null,"bound":null,"seconds":20}`: {
			bound: math.Inf(-1), seconds: 20},
	} {
		got, err := readHiGHS(text)
		if diff := cmp.Diff(want, got, compareAnswers); diff != "" || err != nil {
			t.Errorf("%s: %v (-want +got):\n%s", text, err, diff)
		}
	}
	if _, err := readHiGHS("RuntimeError: memory access out of bounds"); err == nil {
		t.Error("a crash is an answer")
	}
}
