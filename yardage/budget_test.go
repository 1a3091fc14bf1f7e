package yardage

import (
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"crossgrain/pack"
)

// spend lets searches take what each needs of a budget, on so many cores, and
// gives what each got.
func spend(work int64, needs []int64, cores int) []int64 {
	b := newBudget(work, len(needs))
	free := make(chan struct{}, cores)
	got := make([]int64, len(needs))
	var wg sync.WaitGroup
	for i, need := range needs {
		free <- struct{}{}
		wg.Go(func() {
			defer func() { <-free }()
			got[i] = b.first
			for got[i] < need {
				time.Sleep(time.Duration(rand.IntN(100)) * time.Microsecond)
				more := b.more(free)
				if more == 0 {
					break
				}
				got[i] += more
			}
			b.done(got[i] - min(got[i], need))
		})
	}
	wg.Wait()
	return got
}

// What each search gets depends on the needs alone, not on what comes first.
func TestBudgetIsSharedByNeed(t *testing.T) {
	const much = 1 << 60
	needs := []int64{leastShare, much, 0, 9 * leastShare, much, 30 * leastShare}
	want := spend(100*leastShare, needs, 1)
	for _, cores := range []int{2, 3, 6} {
		for range 20 {
			if got := spend(100*leastShare, needs, cores); !slices.Equal(got, want) {
				t.Fatalf("on %d cores %v, on one %v", cores, got, want)
			}
		}
	}
	if want[1] != want[4] || want[1] < 2*want[0] {
		t.Errorf("those in need got %d and %d, one that is not %d", want[1], want[4], want[0])
	}
	if want[3] < needs[3] || want[5] >= needs[5]*2 {
		t.Errorf("for needs of %v: %v", needs, want)
	}
	sum := int64(0)
	for i, n := range needs {
		sum += min(want[i], max(n, 0))
	}
	if sum > 100*leastShare || sum < 90*leastShare {
		t.Errorf("%d spent of %d", sum, 100*leastShare)
	}
}

func TestBudgetOfNothing(t *testing.T) {
	if got := spend(0, []int64{1 << 40, 1}, runtime.GOMAXPROCS(0)); !slices.Equal(got, []int64{1, 1}) {
		t.Errorf("%v", got)
	}
	if got := (Options{TimeLimit: time.Nanosecond}).work(3); got < 0 || got > pack.WorkPerSecond {
		t.Errorf("%d", got)
	}
}
