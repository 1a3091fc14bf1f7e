package reports_test

import (
	"context"
	"fmt"
	"os"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/reports"
	"crossgrain/yardage"
)

func ExampleWriteJSON() {
	list := model.CutList{Title: "Mat", Fabrics: []model.FabricCuts{{
		Fabric: model.Fabric{
			ID: "ink", UsableWidths: []model.Length{42 * model.Inch},
			SoldBy: model.ShopCut{Step: model.Yard / 8},
		},
		Pieces: []model.Piece{{Name: "A", Along: 5 * model.Inch / 2, Across: 9 * model.Inch / 2, Count: 16}},
	}}}
	quilt, err := yardage.Require(context.Background(), list, yardage.Options{Style: pack.Plain})
	if err == nil {
		err = reports.WriteJSON(os.Stdout, reports.Quilt{Quilt: quilt})
	}
	if err != nil {
		fmt.Println(err)
	}
	// Output:
	// {
	//   "title": "Mat",
	//   "unit": "in",
	//   "fabrics": [
	//     {
	//       "id": "ink",
	//       "name": "",
	//       "plans": [
	//         {
	//           "usable_width": 42,
	//           "style": "plain",
	//           "strips": [
	//             {
	//               "height": 4.5,
	//               "repeat": 1,
	//               "offcut": 2,
	//               "segments": [
	//                 {
	//                   "along": 2.5,
	//                   "repeat": 16,
	//                   "stack": [
	//                     {
	//                       "piece": "A",
	//                       "along": 2.5,
	//                       "across": 4.5,
	//                       "turned": false
	//                     }
	//                   ]
	//                 }
	//               ]
	//             }
	//           ],
	//           "strip_count": 1,
	//           "layout_count": 1,
	//           "length": 4.5,
	//           "length_bound": 4.5,
	//           "length_bound_by": "count",
	//           "length_proven": true,
	//           "strips_proven": false,
	//           "buy": {
	//             "length": 4.5,
	//             "text": "1/8 yd",
	//             "proven": true,
	//             "proven_by": "count"
	//           },
	//           "plain": {
	//             "length": 4.5,
	//             "strip_count": 1,
	//             "buy": {
	//               "length": 4.5,
	//               "text": "1/8 yd"
	//             }
	//           },
	//           "used_share": 0.9524
	//         }
	//       ]
	//     }
	//   ]
	// }
}
