package setting

import (
	"crossgrain/model"
	"crossgrain/model/block"
)

// Check notes what is wrong with the setting apart from its blocks. A key of it
// stands at its place in the quilt file, which is in one of the sizes or in the
// setting itself.
func (s Setting) Check(c *block.Checker, at func(key string) model.Path) {
	s.checkGrid(c, at)
	if s.Way != Straight {
		c.Faults.AddAt(at(KeyWay), &model.ValueError{Value: s.Way.String(), Err: model.ErrNotAChoice, Hint: "write straight"})
	}
	if s.Sashing != nil {
		c.Faults.AddAt(at(KeySashing), &model.ValueError{Err: model.ErrNotTogether, Hint: "leave it out"})
	}
}

// Set puts blocks of a finished width and height together. It is called only
// if Check noted nothing.
func (s Setting) Set(_ block.Rules, width, height model.Length) Top {
	return s.straight(width, height)
}
