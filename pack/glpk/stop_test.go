//go:build cgo

package glpk

import (
	"context"
	"reflect"
	"testing"
	"time"
)

// prompt is how long a solve may go on after it was told to stop. The aim is
// 50 ms; the race detector gets more, and a busy machine a second and a third
// try.
const (
	prompt = time.Second
	tries  = 3
)

// long are solves that take many times as long as the tests let them.
var long = map[string]func(ctx context.Context, limit time.Duration) (Solution, error){
	"lp": func(ctx context.Context, limit time.Duration) (Solution, error) {
		return SolveLP(ctx, covering(600, 9000, 4), nil, Options{TimeLimit: limit})
	},
	"lp, presolved": func(ctx context.Context, limit time.Duration) (Solution, error) {
		return SolveLP(ctx, covering(600, 9000, 4), nil, Options{TimeLimit: limit, Presolve: true})
	},
	"mip": func(ctx context.Context, limit time.Duration) (Solution, error) {
		return SolveMIP(ctx, covering(40, 2000, 5), Options{TimeLimit: limit, Dual: true})
	},
	"mip, cuts": func(ctx context.Context, limit time.Duration) (Solution, error) {
		return SolveMIP(ctx, covering(40, 2000, 5), Options{TimeLimit: limit, Dual: true, Cuts: true})
	},
	"mip, in its first relaxation": func(ctx context.Context, limit time.Duration) (Solution, error) {
		return SolveMIP(ctx, covering(600, 9000, 4), Options{TimeLimit: limit})
	},
}

func TestCancelIsPrompt(t *testing.T) {
	for name, solve := range long {
		t.Run(name, func(t *testing.T) {
			late := prompt + 1
			for try := 0; try < tries && late > prompt; try++ {
				ctx, cancel := context.WithCancel(context.Background())
				cancelled := make(chan time.Time, 1)
				time.AfterFunc(100*time.Millisecond, func() { cancelled <- time.Now(); cancel() })
				s, err := solve(ctx, 0)
				end := time.Now()
				if err != nil || (s.Status != Cancelled && s.Status != Feasible) {
					t.Fatalf("%v, %v", s.Status, err)
				}
				late = end.Sub(<-cancelled)
			}
			t.Logf("ended %v after the cancel", late)
			if late > prompt {
				t.Errorf("went on for %v after the cancel", late)
			}
		})
	}
}

func TestTimeLimit(t *testing.T) {
	const limit = 100 * time.Millisecond
	for name, solve := range long {
		t.Run(name, func(t *testing.T) {
			took := limit + prompt + 1
			for try := 0; try < tries && took > limit+prompt; try++ {
				begin := time.Now()
				s, err := solve(context.Background(), limit)
				took = time.Since(begin)
				if err != nil || (s.Status != TimeLimit && s.Status != Feasible) {
					t.Fatalf("%v, %v", s.Status, err)
				}
			}
			if took < limit || took > limit+prompt {
				t.Errorf("took %v with a limit of %v", took, limit)
			}
		})
	}
}

// A context or time limit that does not come into play changes nothing.
func TestWatchingChangesNothing(t *testing.T) {
	p := covering(30, 200, 1)
	plain, err := SolveLP(context.Background(), p, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	watched, err := SolveLP(ctx, p, nil, Options{TimeLimit: time.Hour})
	if err != nil || !reflect.DeepEqual(plain, watched) {
		t.Errorf("%+v, %v\nwant %+v", watched, err, plain)
	}
}
