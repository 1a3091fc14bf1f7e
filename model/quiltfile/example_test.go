package quiltfile_test

import (
	"fmt"
	"os"

	"crossgrain/model/quiltfile"
)

func ExampleParse() {
	_, err := quiltfile.Parse("steps.yaml", []byte(`unit: in
fabrics:
  ink: {one_wya: yes}
cuts:
- {name: A, fabric: inc, size: 2 1/2 x 4 1/2, count: 96}
- {name: B, fabric: ink, size: 2 9/16, count: 0, halve: once}
`))
	fmt.Println(err)
	// Output:
	// steps.yaml:3:9: unknown key ("one_wya"), did you mean one_way?
	// steps.yaml:5:21: cut "A": fabric: not a fabric of this quilt ("inc"), write ink, or add it to the fabrics
	// steps.yaml:6:32: cut "B": size: off the ruler's mark ("2 9/16"), write 2 5/8 or ruler: 1/16
	// steps.yaml:6:47: cut "B": count: out of range ("0"), write a whole number from 1 to 100,000
}

func ExampleWrite() {
	quilt, err := quiltfile.Parse("steps.yaml", []byte(`{"unit": "cm", "fabrics": {"ink": {"sold_by": "0.25 m"},
	"oat": {"one_way": true, "sold_by": "0.25 m"}}, "cuts": [{"name": "A", "fabric": "ink", "size": "6.5 by 11.50", "count": 96}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := quiltfile.Write(os.Stdout, quilt); err != nil {
		fmt.Println(err)
	}
	// Output:
	// unit: cm
	// fabric_defaults:
	//   sold_by: 0.25 m
	// fabrics:
	//   ink: {}
	//   oat: {one_way: true}
	// cuts:
	// - {name: A, fabric: ink, size: 6.5 x 11.5, count: 96}
}
