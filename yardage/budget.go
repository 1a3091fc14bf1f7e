package yardage

import (
	"sync"

	"crossgrain/pack"
)

// budget is the work that the searches of a quilt share by need. Each gets a
// first share. A search that has used it up while its purchase is open waits
// until every other one is done or waits too; then those that wait get equal
// shares of half of what is left, and so on. What each gets depends on what the
// searches take, which is the same every time, and not on when.
type budget struct {
	mutex   sync.Mutex
	left    int64
	first   int64
	running int // searches that are neither done nor waiting
	waiting []chan int64
}

// leastShare is the work that is still worth going on for.
const leastShare = pack.WorkPerSecond / 40

// newBudget is the budget of so many searches.
func newBudget(work int64, searches int) *budget {
	first := max(1, work/2/int64(max(1, searches)))
	return &budget{left: work - first*int64(searches), first: first, running: searches}
}

// more waits for a further share of a search; zero says that there is none. The
// search gives its core to another while it waits.
func (b *budget) more(core chan struct{}) int64 {
	share := make(chan int64, 1)
	b.mutex.Lock()
	b.waiting = append(b.waiting, share)
	b.running--
	b.share()
	b.mutex.Unlock()
	<-core
	got := <-share
	core <- struct{}{}
	return got
}

// done takes back what a search did not need of all that it got, or what it took
// besides.
func (b *budget) done(unused int64) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	b.left += unused
	b.running--
	b.share()
}

// share hands out shares if no search is running.
func (b *budget) share() {
	if b.running > 0 || len(b.waiting) == 0 {
		return
	}
	share := b.left / 2 / int64(len(b.waiting))
	if share < leastShare {
		share = 0
	}
	for _, w := range b.waiting {
		w <- share
	}
	b.left -= share * int64(len(b.waiting))
	b.running, b.waiting = len(b.waiting), nil
}
