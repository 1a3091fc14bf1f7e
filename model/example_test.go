package model_test

import (
	"fmt"

	"crossgrain/model"
)

func Example() {
	width, height, err := model.ParseSize("6½ x 60½", model.Inches)
	if err != nil {
		fmt.Println(err)
		return
	}
	dusk := model.DefaultFabric(model.Inches)
	dusk.ID = "dusk"
	quilt := model.Quilt{
		Title:   "Ferry lights",
		Unit:    model.Inches,
		Ruler:   model.DefaultRuler(model.Inches),
		Fabrics: []model.Fabric{dusk},
		Cuts: []model.Cut{
			{Name: "A", Fabric: "dusk", Width: width, Height: height, Count: 2, Grain: model.Lengthwise},
			{Name: "B", Fabric: "dusk", Width: 2 * model.Inch, Height: model.Inch / 16, Count: 0},
		},
	}
	if _, err = quilt.CutList(); err != nil {
		fmt.Println(err)
	}
	quilt.Cuts[1].Height, quilt.Cuts[1].Count = 3*model.Inch, 24
	list, err := quilt.CutList()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, piece := range list.Fabrics[0].Pieces {
		fmt.Println(piece.Count, piece.Name, piece.Size(list.Unit), piece.Grain)
	}
	// Output:
	// cut "B": count: out of range ("0"), write a whole number from 1 to 100,000
	// cut "B": size: off the ruler's mark ("2 x 1/16"), write the size that the blade cuts, at least 1/8 in
	// 2 A 6 1/2 x 60 1/2 lengthwise
	// 24 B 2 x 3
}

func ExampleParseLength() {
	for _, text := range []string{"12½", "12-1/2", `12.5"`, "31.75 cm", "1/8 yd", "12,5", "2.9"} {
		length, err := model.ParseLength(text, model.Inches)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(length, "=", length.FormatWithUnit(model.Centimetres))
	}
	// Output:
	// 12 1/2" = 31.75 cm
	// 12 1/2" = 31.75 cm
	// 12 1/2" = 31.75 cm
	// 12 1/2" = 31.75 cm
	// 4 1/2" = 11.43 cm
	// comma in a number ("12,5"), write a point for decimals, as in 12.5, and nothing between thousands
	// finer than 1/64 in, 1/24 in or 0.1 mm ("2.9"), the next length up is 2 29/32 in
}
