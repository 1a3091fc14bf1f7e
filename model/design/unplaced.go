package design

import (
	"crossgrain/model/block"
)

// Unplaced are the labels of the blocks and the units that stand in no size of
// the quilt, in the order of the file: nothing is cut for them. It is called
// only if Check found nothing.
func (d Design) Unplaced() (blocks, units []string) {
	// Blocks and units share one set of labels in rows, where it is the unit's
	// if both have it; in a setting there are only blocks.
	standing := make(map[string]bool)
	within := make(map[string]bool)
	all := d.units()
	for _, name := range d.SizeNames() {
		size, err := d.size(name)
		if err != nil {
			continue
		}
		set := d.sized(size).Setting
		if set == nil {
			continue
		}
		for _, place := range set.Standing() {
			b, known := d.block(place.Block)
			if !known || standing[b.Name] {
				continue
			}
			standing[b.Name] = true
			for _, p := range b.Contents(all) {
				switch u := p.Unit.(type) {
				case block.Part:
					standing[u.Block.Name] = true
				case block.Rounds: // a block by itself
					standing[p.Name] = true
				default:
					within[p.Name] = true
				}
			}
		}
	}
	for _, b := range d.Blocks {
		if !standing[b.Name] {
			blocks = append(blocks, b.Name)
		}
	}
	for _, u := range d.Units {
		if !within[u.Name] {
			units = append(units, u.Name)
		}
	}
	return blocks, units
}
