package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"underfall/geometry/message"
)

// sixteenthsIn are the parts an inch is shown in.
const sixteenthsIn = 16

// Format writes a number with its unit in the given system.
func Format(v float64, kind Kind, s System) string { return format(v, kind, s, 0) }

// Apart writes two numbers of a kind with as many digits as it takes to tell one from
// the other: as Format does where that is enough. Numbers that are equal, or so close
// that nobody could measure it, look alike.
func Apart(a, b float64, kind Kind, s System) (string, string) {
	const mostDigits = 9
	for more := range mostDigits {
		if x, y := format(a, kind, s, more), format(b, kind, s, more); x != y {
			return x, y
		}
	}
	return Format(a, kind, s), Format(b, kind, s)
}

// format is Format with more decimals.
func format(v float64, kind Kind, s System, more int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	switch kind {
	case Length, Along, Nominal:
		return ofLength(v, kind, s, more)
	case Area:
		if s == Imperial {
			return feet(inchScale().back(inchScale().back(v)), more)
		}
		const mm2PerM2 = 1e6
		return trim(v/mm2PerM2, 2+more) + " m²"
	case Slope:
		return slope(v, s, more)
	case Flow, Volume, Liquid, Yield, Cover, Speed:
		return ofLiquid(v, kind, s, more)
	case Load, Mass:
		return ofWeight(v, kind, s, more)
	case Angle:
		return trim(v, 1+more) + "°"
	case Ratio:
		return trim(v*100, 1+more) + " %"
	case Time:
		return trim(v, 1+more) + " min"
	default:
		return trim(v, 2+more)
	}
}

// ofLength writes a length, one along a floor or wall, or the size by which something is sold.
func ofLength(mm float64, kind Kind, s System, more int) string {
	switch {
	case s == Imperial && kind == Length:
		return inches(mm, more)
	case s == Imperial && kind == Along:
		return feetAndInchesOf(mm, more)
	case s == Imperial:
		if in, is := nominalInches(mm); is {
			return inches(inchScale().of(in), more)
		}
	}
	return trim(mm, 1+more) + " mm"
}

// ofLiquid writes what is measured of a liquid: how much, how fast, how much of it something takes or makes.
func ofLiquid(v float64, kind Kind, s System, more int) string {
	const m2InFt2 = 0.3048 * 0.3048
	switch kind {
	case Flow:
		if s == Imperial {
			const large = 10 // from there on nobody reads hundredths
			gallons, decimals := gallonScale().back(v), 2
			if math.Abs(gallons) >= large {
				decimals = 1
			}
			return trim(gallons, decimals+more) + " gpm"
		}
		return trim(v*60, 1+more) + " l/min"
	case Volume:
		if s == Imperial {
			return trim(v/litresInGallon, 1+more) + " gal"
		}
		return trim(v, 1+more) + " l"
	case Yield:
		if s == Imperial {
			return trim(v/kgInPound*litresInGallon, 1+more) + " lb/gal"
		}
		return trim(v, 2+more) + " kg/l"
	case Cover:
		if s == Imperial {
			return trim(v*m2InFt2/litresInFluidOunce, 2+more) + " fl oz/ft²"
		}
		return trim(v, 2+more) + " l/m²"
	case Speed:
		if s == Imperial {
			return trim(bareScale(Speed, Imperial).back(v), 1+more) + " ft/s"
		}
		return trim(v, 2+more) + " m/s"
	}
	return liquid(v, s, more)
}

// ofWeight writes a weight, or what of it a floor carries.
func ofWeight(v float64, kind Kind, s System, more int) string {
	const kNM2InPSF = 4.4482216152605 / 0.3048 / 0.3048 / 1000 // a pound's force is 4.448… N
	switch {
	case kind == Load && s == Imperial:
		return trim(v/kNM2InPSF, more) + " lb/ft²"
	case kind == Load:
		return trim(v, 2+more) + " kN/m²"
	case s == Imperial:
		return trim(v/kgInPound, 1+more) + " lb"
	}
	return trim(v, 1+more) + " kg"
}

// American units of what is sold: the gallon is 231 cubic inches, the fluid ounce its 128th part, the pound that of
// the agreement of 1959.
const (
	litresInGallon     = 3.785411784
	litresInFluidOunce = litresInGallon / 128
	kgInPound          = 0.45359237
)

// liquid writes a volume of what is sold by it: small ones in millilitres, or in fluid ounces under a gallon.
func liquid(litres float64, s System, more int) string {
	const millilitres = 1000
	switch {
	case s == Imperial && litres < litresInGallon-litresInFluidOunce/2:
		return trim(litres/litresInFluidOunce, 1+more) + " fl oz"
	case s == Imperial:
		return trim(litres/litresInGallon, 1+more) + " gal"
	case math.Round(litres*millilitres) < millilitres:
		return trim(litres*millilitres, more) + " ml"
	}
	return trim(litres, 1+more) + " l"
}

// feet writes an area given in square inches: in square feet to a tenth, small ones to a
// hundredth, as 900 in² are 6.25 ft²; in whole square inches under a tenth of one, as nothing is bought by them.
func feet(in2 float64, more int) string {
	const inSquareFoot, small, least = inchesInFoot * inchesInFoot, 10, 0.1
	ft2 := in2 / inSquareFoot
	switch {
	case math.Abs(ft2) < least:
		return trim(in2, more) + " in²"
	case math.Abs(ft2) < small:
		return trim(ft2, 2+more) + " ft²"
	}
	return trim(ft2, 1+more) + " ft²"
}

// stockMM is from when a length of what is bought by the length is told in metres, or in
// feet and inches.
const stockMM = 2000

// Rounded writes a length with its unit, in metric units to whole, half or tenth
// millimetres, in inches as always to the nearest sixteenth; one of stock in feet and inches
// from a foot up, a long one to the nearest decimetre or inch.
func Rounded(mm float64, round message.Round, s System) string {
	if round == message.Stock && mm >= stockMM && !math.IsInf(mm, 1) {
		return stock(mm, s)
	}
	if round == message.Stock && s == Imperial {
		return Format(mm, Along, s)
	}
	if s == Metric {
		mm = inSteps(mm, stepsIn(round, s))
	}
	return Format(mm, Length, s)
}

// Told is a length as it is written: in the step that it is rounded to, so that what is worked out of such lengths adds up as it is read.
func Told(mm float64, round message.Round, s System) float64 { return inSteps(mm, stepsIn(round, s)) }

// Bounded is a length with a bound as Told has it, but never beyond that bound; one without is as it was.
func Bounded(mm float64, bound message.Bound, round message.Round, s System) float64 {
	if bound == message.Nearest {
		return mm
	}
	steps := stepsIn(round, s)
	return bound.Steps(mm*steps) / steps
}

// inSteps rounds to so many steps in one, halves away from nought. What is a hair under half,
// from being worked out another way, counts as half: one number is told in one way.
func inSteps(v, steps float64) float64 {
	const hair = 1e-7 // of a step; what adding up lengths leaves is far less
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return v
	}
	return math.Copysign(math.Floor(math.Abs(v)*steps+0.5+hair)/steps, v)
}

// InFeet writes a length as Rounded does, in inches from a foot up in feet and inches.
func InFeet(mm float64, round message.Round, s System) string {
	if s != Imperial || round == message.Stock {
		return Rounded(mm, round, s)
	}
	return Format(mm, Along, s)
}

// feetAndInchesOf writes millimetres as inches does, from a foot up in feet and inches.
func feetAndInchesOf(mm float64, more int) string {
	parts := float64(int64(sixteenthsIn) << more)
	if more > mostFractions {
		parts = math.Pow10(more)
	}
	foot := int64(inchesInFoot * parts)
	n := int64(inSteps(inchScale().back(math.Abs(mm))*parts, 1))
	if n < foot {
		return inches(mm, more)
	}
	sign := ""
	if mm < 0 {
		sign = "-"
	}
	return fmt.Sprintf("%s%d' %s", sign, n/foot, inches(inchScale().of(float64(n%foot)/parts), more))
}

// nominalInches is the nominal size in inches that stands for one in millimetres; is tells whether one does. Pipe of
// inches is called by these, whatever it measures. Source: from memory of ISO 6708 and ASME B36.10, DN beside NPS.
func nominalInches(mm float64) (in float64, is bool) {
	switch mm {
	case 32:
		return 1.25, true
	case 40:
		return 1.5, true
	case 50:
		return 2, true
	case 65:
		return 2.5, true
	case 80:
		return 3, true
	case 100:
		return 4, true
	case 150:
		return 6, true
	}
	return 0, false
}

// stock writes a length in metres, or in feet and inches.
func stock(mm float64, s System) string {
	const mmInMetre = 1000
	if s == Metric {
		return trim(mm/mmInMetre, 1) + " m"
	}
	all := int64(math.Round(inchScale().back(mm)))
	return fmt.Sprintf(`%d' %d"`, all/inchesInFoot, all%inchesInFoot)
}

// SignedLevel writes a level above the datum with its sign, rounded as the trade
// reads levels. One that comes to nought has none.
func SignedLevel(mm float64, s System) string {
	text := Rounded(mm, message.Whole, s)
	if strings.HasPrefix(text, "-") || text == Rounded(0, message.Whole, s) || math.IsNaN(mm) || math.IsInf(mm, 0) {
		return text
	}
	return "+" + text
}

// Editable writes a number as the user would type it. It reads back as
// exactly what is shown and in one way only: there are never three decimals,
// which could be thousands, unless they follow a nought or a thousand times as
// much makes no sense.
func Editable(v float64, kind Kind, s System) string {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return Format(v, kind, s)
	case kind == Slope && s == Metric && v > 0 && 1/v < 999.995:
		return "1:" + trim(1/v, 2)
	case kind.IsLength() && s == Metric:
		return trim(v, 2)
	case kind == Slope && s == Metric:
		return trim(v*1000, 2) + " mm/m"
	case kind == Slope && !IsLevel(v):
		return signed(v, inFootAsTyped(math.Abs(v)))
	}
	return Format(v, kind, s)
}

// trim writes v with at most the given decimals and no trailing zeros.
func trim(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// mostFractions is how much finer than sixteenths fractions go before decimals follow.
const mostFractions = 2

// inches writes millimetres as inches to the nearest sixteenth; with more digits to
// the nearest thirty-second, sixty-fourth, then in decimals.
func inches(mm float64, more int) string {
	if more > mostFractions {
		return trim(inchScale().back(mm), more) + `"`
	}
	parts := int64(sixteenthsIn) << more
	n := int64(inSteps(inchScale().back(math.Abs(mm))*float64(parts), 1))
	sign := ""
	if mm < 0 && n > 0 {
		sign = "-"
	}
	whole, part := n/parts, n%parts
	if part == 0 {
		return fmt.Sprintf(`%s%d"`, sign, whole)
	}
	den := parts
	for part%2 == 0 {
		part, den = part/2, den/2
	}
	if whole == 0 {
		return fmt.Sprintf(`%s%d/%d"`, sign, part, den)
	}
	return fmt.Sprintf(`%s%d %d/%d"`, sign, whole, part, den)
}

// IsLevel tells whether a fall is so small that it is shown as none: under a
// twentieth of a millimetre in a metre.
func IsLevel(slope float64) bool { return math.Abs(slope) < 5e-5 }

// slope writes a fall as it is spoken of, one in so many, with what a digital level shows beside it.
func slope(v float64, s System, more int) string {
	a := math.Abs(v)
	if more == 0 && IsLevel(v) {
		return "level"
	}
	perMetre := trim(a*1000, 1+more) + " mm/m"
	switch {
	case s == Imperial:
		return signed(v, inFoot(a, more))
	case a <= 1.0/1000:
		return signed(v, perMetre)
	}
	return signed(v, fmt.Sprintf("1:%s (%s)", trim(1/a, 1+more), perMetre))
}

// signed is a text of how much a value is, with its sign where it is less than nothing.
func signed(v float64, text string) string {
	if v < 0 {
		return "-" + text
	}
	return text
}

// inFoot writes a fall as it is spoken of where inches are: by the nearest sixteenth of an inch in a foot, with the percentage that
// it is beside it where it is not that in full; what is less than half a sixteenth in percent alone.
func inFoot(a float64, more int) string {
	n := math.Round(a * inchesInFoot * sixteenthsIn)
	percent := trim(a*100, 2+more) + " %"
	switch {
	case n == 0:
		return percent
	case more == 0 && math.Abs(a*inchesInFoot-n/sixteenthsIn) < sameInch:
		return fraction(n)
	}
	return fmt.Sprintf("%s (%s)", fraction(n), percent)
}

// fraction writes so many sixteenths of an inch in a foot.
func fraction(sixteenths float64) string {
	return strings.TrimSuffix(inches(inchScale().of(sixteenths/sixteenthsIn), 0), `"`) + " in/ft"
}

// inFootAsTyped writes a fall as one types it: in sixteenths of an inch in a foot where it is some, else in decimals.
func inFootAsTyped(a float64) string {
	if isSixteenths(a * inchesInFoot) {
		return fraction(math.Round(a * inchesInFoot * sixteenthsIn))
	}
	return trim(a*inchesInFoot, 3) + " in/ft"
}

// sameInch is how far apart two numbers of inches that are the same may be: what the nine decimals of a fall leave.
const sameInch = 1e-6

// isSixteenths tells whether so many inches are told in full by sixteenths of one, or would be read as some from
// the three decimals that they are told in otherwise.
func isSixteenths(inches float64) bool {
	const decimals = 1e3
	n := math.Round(inches * sixteenthsIn)
	told := math.Round(inches*decimals) / decimals
	return n > 0 && (math.Abs(inches-n/sixteenthsIn) < sameInch || math.Abs(told-n/sixteenthsIn) < sameInch)
}

// exact writes a value in full, to be read in one way only.
func exact(v float64, kind Kind, s System) string {
	if kind == Slope {
		a, sign := math.Abs(v), ""
		if v < 0 {
			sign = "-"
		}
		const steps, flattest, sameSlope = 1e6, 1e5, 1e-12 // six decimals of n in 1:n say the fall in full
		if n := math.Round(steps/a) / steps; n >= 1 && n < flattest && math.Abs(1/n-a) < sameSlope {
			return sign + "1:" + decimals(n)
		}
		return decimals(v*100) + " %"
	}
	if kind == Ratio {
		return decimals(v*100) + " %"
	}
	text := decimals(bareScale(kind, s).back(v))
	switch unit := Symbol(kind, s); unit {
	case "":
		return text
	case "in":
		// A length typed in millimetres is rarely short in inches.
		if mm := decimals(v) + " mm"; len(mm) < len(exactInches(v, kind)) {
			return mm
		}
		return exactInches(v, kind)
	case "°":
		return text + unit
	default:
		return text + " " + unit
	}
}

// exactInches writes millimetres in full as inches, as the kind is told and with a fraction if
// that is exact.
func exactInches(mm float64, kind Kind) string {
	n := inchScale().back(mm)
	const rounding = 1e-9 // of a sixteenth
	if math.Abs(n*sixteenthsIn-math.Round(n*sixteenthsIn)) < rounding {
		return Format(mm, kind, Imperial)
	}
	return decimals(n) + `"`
}

// decimals writes a number with as many decimals as it has, up to nine, but never
// with three of them, which could be thousands.
func decimals(v float64) string {
	text := trim(v, 9)
	if point := strings.IndexByte(text, '.'); point >= 0 && len(text)-point == 4 {
		return text + "0"
	}
	return text
}

// Value is a number of a kind as a message has it: a length in tenths, as it is
// shown where it must be exact.
func Value(v float64, kind Kind) message.Value {
	switch kind {
	case Length:
		return message.Length{MM: v, Round: message.Tenth}
	case Along:
		return message.Length{MM: v, Round: message.Tenth, Feet: true}
	case Area:
		return message.Area{MM2: v}
	case Nominal:
		return message.Size(v)
	case Slope:
		return message.Fall{Slope: v}
	case Flow:
		return message.Flow{LPS: v}
	case Angle:
		return message.Degrees(v)
	case Ratio:
		return message.Share(v)
	case Time:
		return message.Minutes(v)
	case Speed:
		return message.Speed{MPS: v}
	case Volume:
		return message.Volume{Litres: v}
	case Load:
		return message.Load{KNM2: v}
	case Mass:
		return message.Mass{KG: v}
	case Liquid:
		return message.Liquid{Litres: v}
	case Yield:
		return message.Yield{KGPerLitre: v}
	case Cover:
		return message.Coverage{LitresPerM2: v}
	}
	return message.Number(v)
}
