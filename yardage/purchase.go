package yardage

import "crossgrain/model"

// need is the cloth that strips of the given length ask for before the shop
// rounds it up. The wash takes its share of the whole cut of cloth, and what
// is left must hold the strips; squaring the cut up comes on top:
//
//	need = length / (1 - shrinkage) + straighten
//
// No strips need nothing, so that a fabric without pieces is not bought for
// its straightening alone.
func need(f model.Fabric, length model.Length) model.Length {
	if length <= 0 {
		return 0
	}
	return f.Shrinkage.Grow(length) + f.Straighten
}

// purchase is what the shop must cut for strips of the given length. It never
// falls as the length grows.
func purchase(f model.Fabric, length model.Length) Purchase {
	return purchaseOf(f, f.SoldBy.Ceil(need(f, length)))
}

func purchaseOf(f model.Fabric, bought model.Length) Purchase {
	return Purchase{Length: bought, Text: f.SoldBy.Format(bought)}
}
