package pack

import "math/bits"

// tally is numbers of pieces of each size in a few words: those of a size have as
// many bits as its most need, so that tallies of what is no more than the most are
// added up word by word.
type tally []uint64

// tallying is which bits of a tally the sizes have.
type tallying struct {
	word, shift []int
	words       int
}

func newTallying(most []int) tallying {
	t := tallying{word: make([]int, len(most)), shift: make([]int, len(most)), words: 1}
	used := 0
	for i, n := range most {
		need := bits.Len(uint(n))
		if used+need > 64 {
			t.words, used = t.words+1, 0
		}
		t.word[i], t.shift[i] = t.words-1, used
		used += need
	}
	return t
}

// of is the tally of pieces.
func (t *tallying) of(list []pieces) tally {
	sum := make(tally, t.words)
	for _, p := range list {
		sum[t.word[p.size]] += uint64(p.count) << t.shift[p.size]
	}
	return sum
}

// add adds another tally, or takes it away.
func (t tally) add(u tally, n int) {
	for w := range u {
		t[w] += uint64(n) * u[w]
	}
}

// tallies is a set of tallies of so many words: a hash table
// with open addressing, as there are very many.
type tallies struct {
	words int
	slots []int32 // one more than the place of a tally, or 0
	keys  []uint64
	count int
}

// find is the place of a tally, and whether it was there. If not it is now.
func (s *tallies) find(key []uint64) (at int, known bool) {
	if 2*s.count >= len(s.slots) {
		s.grow()
	}
	slot := s.slotOf(key)
	for ; s.slots[slot] != 0; slot = (slot + 1) & (len(s.slots) - 1) {
		at = int(s.slots[slot]) - 1
		if equalWords(s.keys[at*s.words:(at+1)*s.words], key) {
			return at, true
		}
	}
	s.count++
	s.slots[slot] = int32(s.count)
	s.keys = append(s.keys, key...)
	return s.count - 1, false
}

func equalWords(a, b []uint64) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// slotOf is where the search for a tally begins.
func (s *tallies) slotOf(key []uint64) int {
	h := uint64(0)
	for _, w := range key {
		h = (h ^ w) * 0x9e3779b97f4a7c15 // 2^64 over the golden ratio
		h ^= h >> 32
	}
	return int(h) & (len(s.slots) - 1)
}

// grow doubles the slots.
func (s *tallies) grow() {
	s.slots = make([]int32, max(64, 2*len(s.slots)))
	for at := range s.count {
		slot := s.slotOf(s.keys[at*s.words : (at+1)*s.words])
		for s.slots[slot] != 0 {
			slot = (slot + 1) & (len(s.slots) - 1)
		}
		s.slots[slot] = int32(at) + 1
	}
}
