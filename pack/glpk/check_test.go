package glpk

import (
	"errors"
	"testing"
)

func TestUnavailable(t *testing.T) {
	p, err := Open()
	if errors.Is(err, ErrUnavailable) == Available() {
		t.Errorf("available: %v; opening: %v", Available(), err)
	}
	if err == nil {
		p.Close()
	}
}

func TestStatusString(t *testing.T) {
	for s := Failed; s <= Unbounded; s++ {
		if s.String() == "" || s.String()[0] == 'S' {
			t.Errorf("status %d has no name", s)
		}
	}
	if got := (Unbounded + 1).String(); got != "Status(4)" {
		t.Errorf("unknown status: %q", got)
	}
}
