package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"golang.org/x/term"

	"crossgrain/model"
	"crossgrain/yardage"
)

const (
	// progressAfter is how long a run lasts before it tells how it stands.
	progressAfter = 500 * time.Millisecond
	// progressPatience is how long the line stays with a fabric that says
	// nothing, while others are planned beside it.
	progressPatience = 300 * time.Millisecond
	// progressWidth is the most columns of the line; a narrower terminal is
	// rare, and one line more does no harm there.
	progressWidth = 79
)

// progressLine is one line on a terminal that says how the searches stand. It
// is written over and over in its place, and wiped out at the end.
type progressLine struct {
	out   io.Writer
	unit  model.Unit
	start time.Time
	// shown is the number of the fabric and width on the line, since is when
	// it was written, and columns are how many it takes.
	shown   int
	since   time.Time
	columns int
}

// show puts one search on the line.
func (l *progressLine) show(p yardage.Progress) { l.showAt(time.Now(), p) }

func (l *progressLine) showAt(now time.Time, p yardage.Progress) {
	if now.Sub(l.start) < progressAfter {
		return
	}
	if l.columns > 0 && l.shown != p.Number && now.Sub(l.since) < progressPatience {
		return
	}
	l.shown, l.since = p.Number, now
	text := fmt.Sprintf("planning %s at %s (%d of %d): at most %s", p.Fabric,
		p.Width.FormatWithUnit(l.unit), p.Number, p.Total, p.Search.Best.FormatWithUnit(l.unit))
	if p.Search.Bound > 0 {
		text += ", at least " + p.Search.Bound.FormatWithUnit(l.unit)
	}
	l.write(text)
}

// write puts a text in the place of the one before.
func (l *progressLine) write(text string) {
	runes := []rune(text)
	if len(runes) > progressWidth {
		runes = append(runes[:progressWidth-1], '…')
	}
	blank := max(0, l.columns-len(runes))
	_, _ = fmt.Fprintf(l.out, "\r%s%s", string(runes), strings.Repeat(" ", blank))
	l.columns = len(runes)
}

// wipe takes the line off the terminal.
func (l *progressLine) wipe() {
	if l.columns > 0 {
		l.write("")
		_, _ = fmt.Fprint(l.out, "\r")
	}
}

// terminal reports whether what is written to w is seen at once, in place.
func terminal(w io.Writer) bool {
	switch w := w.(type) {
	case *os.File:
		return term.IsTerminal(int(w.Fd())) && os.Getenv("TERM") != "dumb"
	case interface{ Terminal() bool }:
		return w.Terminal()
	}
	return false
}
