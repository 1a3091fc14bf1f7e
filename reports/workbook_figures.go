package reports

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// variable is one of the figures of a fabric that a reader may vary.
type variable int

const (
	soldBy variable = iota
	straighten
	shrinkage
	price
	spareStrips
	figureCount
)

// figureNames end the names of the cells that hold figures; where a quilt file
// has the figure, its key there is the same.
var figureNames = [figureCount]string{
	model.FieldSoldBy, model.FieldStraighten, model.FieldShrinkage, model.FieldPrice, "spare_strips",
}

// everyFabric begins the names of the cells that all fabrics follow.
const everyFabric = "all"

// clothFigures are the figures of a fabric: as numbers, and whether each is
// that of all fabrics.
type clothFigures struct {
	prefix string // what begins the names of its cells
	unit   model.CutUnit
	values [figureCount]any // nil where there is none
	shared [figureCount]bool
}

// name is the name of the cell of a figure.
func (c clothFigures) name(f variable) string { return c.prefix + "_" + figureNames[f] }

// newClothFigures are the figures of fabrics.
func newClothFigures(fabrics []fabricRows) []clothFigures {
	var all []clothFigures
	taken := map[string]bool{everyFabric: true}
	for _, f := range fabrics {
		c := clothFigures{prefix: freeName(f.fabric.ID, taken), unit: f.fabric.SoldBy.Unit}
		c.values[soldBy], _ = soldIn(f.fabric.SoldBy.Step, c.unit)
		c.values[shrinkage] = float64(f.fabric.Shrinkage) / 100_00
		c.values[spareStrips] = 0
		if f.fabric.Price > 0 {
			c.values[price] = float64(f.fabric.Price) / 100
		}
		all = append(all, c)
	}
	return all
}

// freeName makes the beginning of a cell's name of a label: letters, digits
// and underscores, and no other's. Names differ in more than capitals.
func freeName(label string, taken map[string]bool) string {
	name := strings.Map(func(r rune) rune {
		const plane = 0x10000 // beyond it not every program takes a letter for one
		if r < plane && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			return r
		}
		return '_'
	}, label)
	if !unicode.IsLetter(firstRune(name)) {
		name = "_" + name
	}
	free := name
	for n := 2; taken[strings.ToLower(free)]; n++ {
		free = fmt.Sprintf("%s_%d", name, n)
	}
	taken[strings.ToLower(free)] = true
	return free
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// commonFigures are the figures that most fabrics have, which the cells of
// these fabrics follow. A step of sale goes with its unit.
func commonFigures(cloth []clothFigures) clothFigures {
	common := clothFigures{prefix: everyFabric}
	most := [figureCount]int{}
	for f := range figureCount {
		for _, c := range cloth {
			n := 0
			for _, other := range cloth {
				if c.alike(other, f) {
					n++
				}
			}
			if n <= most[f] || c.values[f] == nil {
				continue
			}
			most[f], common.values[f] = n, c.values[f]
			if f == soldBy {
				common.unit = c.unit
			}
		}
		for i := range cloth {
			cloth[i].shared[f] = cloth[i].alike(common, f)
		}
	}
	return common
}

// alike reports whether two fabrics have the same figure. Prices are for a
// yard, or for a metre.
func (c clothFigures) alike(other clothFigures, f variable) bool {
	same := c.values[f] == other.values[f]
	switch f {
	case soldBy:
		return same && c.unit == other.unit
	case price:
		return same && model.ShopCut{Unit: c.unit}.PriceUnit() == model.ShopCut{Unit: other.unit}.PriceUnit()
	}
	return same
}

// figures puts the table of figures onto the sheet of assumptions: the row of
// all fabrics, then one for each.
func (s *sheet) figures(cloth []clothFigures, q quiltRows) {
	for i, f := range q.fabrics {
		cloth[i].values[straighten], _ = lengthIn(f.fabric.Straighten, q.unit)
	}
	common := commonFigures(cloth)
	first := s.row
	s.figureRow("All fabrics", common, q)
	for i, f := range q.fabrics {
		s.figureRow(f.label, cloth[i], q)
	}
	s.checkFigures(first, s.row-1)
}

// figureRow puts a fabric's figures, and names their cells.
func (s *sheet) figureRow(label string, c clothFigures, q quiltRows) {
	s.put(0, label, strongLook)
	_, step := soldIn(0, c.unit)
	_, length := lengthIn(0, q.unit)
	for f, at := range figureColumns {
		l := inputLook.formatted([figureCount]string{live(step), live(length), percents, money, wholes}[f])
		formula := ""
		if c.shared[f] {
			formula, l.colour = common(f), paleColour
		}
		value := c.values[f]
		if formula != "" {
			value = orEmpty(value)
		}
		s.formula(at, formula, value, l)
		s.do(s.file.SetDefinedName(&excelize.DefinedName{
			Name: c.name(variable(f)), RefersTo: fmt.Sprintf("%s!$%s$%d", quoted(s.name), columnName(at), s.row),
		}))
	}
	s.put(2, c.unit.String(), middleLook)
	s.put(6, model.ShopCut{Unit: c.unit}.PriceUnit().String(), middleLook)
	s.next()
}

// common is the formula of a figure that follows that of all fabrics. An empty
// price stays empty.
func common(f int) string {
	name := clothFigures{prefix: everyFabric}.name(variable(f))
	if variable(f) == price {
		return fmt.Sprintf(`IF(%s="","",%[1]s)`, name)
	}
	return name
}

// figureColumns are the columns of the figures, counted from 0. Between them
// stand the units of the shop's cut and of the price.
var figureColumns = [figureCount]int{1, 3, 4, 5, 7}

// checkFigures refuses figures that mean nothing.
func (s *sheet) checkFigures(first, last int) {
	limits := [figureCount]struct {
		kind     excelize.DataValidationType
		operator excelize.DataValidationOperator
		low, up  float64
		hint     string
	}{
		soldBy:      {excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorGreaterThan, 0, 0, "Write a number greater than 0."},
		straighten:  {excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorGreaterThanOrEqual, 0, 0, "Write a length, 0 or more."},
		shrinkage:   {excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween, 0, 0.5, "Write a share from 0% to 50%."},
		price:       {excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorGreaterThanOrEqual, 0, 0, "Write a price, or leave it empty."},
		spareStrips: {excelize.DataValidationTypeWhole, excelize.DataValidationOperatorBetween, 0, 1000, "Write a whole number, 0 or more."},
	}
	for f, at := range figureColumns {
		limit := limits[f]
		rule := excelize.NewDataValidation(true)
		rule.SetSqref(cellName(at, first) + ":" + cellName(at, last))
		s.do(rule.SetRange(limit.low, limit.up, limit.kind, limit.operator))
		rule.SetError(excelize.DataValidationErrorStyleStop, s.columns[at].heading, limit.hint)
		s.do(s.file.AddDataValidation(s.name, rule))
	}
}

// live is the format of what a reader may change to any fraction.
func live(format string) string {
	if format == decimals {
		return decimals
	}
	return finer
}
