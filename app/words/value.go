package words

import (
	"math"
	"strings"

	"golang.org/x/text/language"
	xmessage "golang.org/x/text/message"
	"golang.org/x/text/number"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// decimalMark is the mark a language's numbers have before their decimals.
func decimalMark(tag string) string {
	parsed, err := language.Parse(tag)
	if err != nil || tag == MadeUp {
		return "."
	}
	shown := xmessage.NewPrinter(parsed).Sprint(number.Decimal(1.5))
	return strings.TrimSuffix(strings.TrimPrefix(shown, "1"), "5")
}

// Value writes a value as the book's language and units have it.
func (b Book) Value(v message.Value) string {
	switch v := v.(type) {
	case message.Length:
		mm := unit.Bounded(v.MM, v.Bound, v.Round, b.units)
		if v.Feet {
			return b.plain(b.number(unit.InFeet(mm, v.Round, b.units)))
		}
		return b.plain(b.number(unit.Rounded(mm, v.Round, b.units)))
	case message.InChain:
		return b.plain(b.number(unit.Chained(v, b.units)))
	case message.Level:
		if read := b.levels; read != nil {
			b.levels = nil
			return b.Say(read(v.MM))
		}
		return b.plain(b.number(unit.SignedLevel(v.MM, b.units)))
	case message.Rise:
		return b.plain(b.number(unit.Rise(v, b.units)))
	case message.Area:
		return b.amount(v.MM2, unit.Area)
	case message.Fall:
		return b.plain(b.amount(v.Slope, unit.Slope))
	case message.Flow:
		return b.amount(v.LPS, unit.Flow)
	case message.Speed:
		return b.amount(v.MPS, unit.Speed)
	case message.Volume:
		return b.amount(v.Litres, unit.Volume)
	case message.Load:
		return b.amount(v.KNM2, unit.Load)
	case message.Mass:
		return b.amount(v.KG, unit.Mass)
	case message.Liquid:
		return b.amount(v.Litres, unit.Liquid)
	case message.Yield:
		return b.amount(v.KGPerLitre, unit.Yield)
	case message.Coverage:
		return b.amount(v.LitresPerM2, unit.Cover)
	case message.Minutes:
		return b.amount(float64(v), unit.Time)
	case message.Degrees:
		return b.amount(float64(v), unit.Angle)
	case message.Share:
		return b.amount(float64(v), unit.Ratio)
	case message.Number:
		return b.amount(float64(v), unit.Count)
	case message.Size:
		return b.amount(float64(v), unit.Nominal)
	case message.Apart:
		return b.apart(v)
	case message.Said:
		return b.Say(message.Message(v))
	case message.List:
		return b.list(v)
	}
	// A count, or somebody's own text.
	if own, ok := v.(message.Own); ok {
		return string(own)
	}
	return v.String()
}

// plain is a length or a fall without its unit and without its other way, where the book is bare.
func (b Book) plain(text string) string {
	if !b.bare || b.units != unit.Metric {
		return text
	}
	text, _, _ = strings.Cut(text, " (")
	return strings.TrimSuffix(text, " mm")
}

// apart writes a value so that it does not look like the one it is shown beside.
func (b Book) apart(v message.Apart) string {
	usual := b.Value(v.Value)
	if usual != b.Value(v.From) {
		return usual
	}
	one, kind := amount(v.Value)
	other, same := amount(v.From)
	if kind == "" || kind != same {
		return usual
	}
	told, _ := unit.Apart(one, other, kind, b.units)
	return b.number(told)
}

// amount is the number in a value and its kind; no kind where it is none that more
// digits say more of.
func amount(v message.Value) (float64, unit.Kind) {
	switch v := v.(type) {
	case message.Length:
		return v.MM, lengthKind(v.Feet)
	case message.InChain:
		return v.MM(), lengthKind(v.Feet)
	case message.Rise:
		return math.Abs(v.MM()), unit.Length
	case message.Area:
		return v.MM2, unit.Area
	case message.Fall:
		return v.Slope, unit.Slope
	case message.Flow:
		return v.LPS, unit.Flow
	case message.Speed:
		return v.MPS, unit.Speed
	case message.Minutes:
		return float64(v), unit.Time
	case message.Degrees:
		return float64(v), unit.Angle
	case message.Share:
		return float64(v), unit.Ratio
	case message.Number:
		return float64(v), unit.Count
	}
	return 0, ""
}

// lengthKind is the kind of a length that is told in feet or not.
func lengthKind(feet bool) unit.Kind {
	if feet {
		return unit.Along
	}
	return unit.Length
}

// amount writes a number with its unit.
func (b Book) amount(v float64, kind unit.Kind) string {
	if kind == unit.Slope && unit.IsLevel(v) {
		return b.Text("value.level")
	}
	return b.number(unit.Format(v, kind, b.units))
}

// number puts the language's decimal mark into a number written with a point.
func (b Book) number(text string) string {
	if b.drawn {
		text = fractions(text)
	}
	if b.point == "." {
		return text
	}
	return strings.ReplaceAll(text, ".", b.point)
}

// list writes several messages one after the other: “a, b and c”.
func (b Book) list(l message.List) string {
	if len(l.Items) == 0 {
		return ""
	}
	all := l.Items[len(l.Items)-1]
	var last message.ID = "list.and"
	if l.Or {
		last = "list.or"
	}
	for i := len(l.Items) - 2; i >= 0; i-- {
		all = message.Of(last, message.In("first", l.Items[i]), message.In("rest", all))
		last = "list.comma"
	}
	return b.Say(all)
}
