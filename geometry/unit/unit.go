// Package unit reads and writes quantities as people in the trade type them.
// Inside Underfall lengths are millimetres, slopes are rise over run, flows
// are litres per second and angles are degrees; display systems live here.
package unit

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// System is the set of units shown to the user.
type System string

// The two systems of units.
const (
	Metric   System = "metric"
	Imperial System = "imperial"
)

// Quantity is the kind of a number, which decides its units.
type Quantity string

// The kinds of number Underfall keeps.
const (
	Length Quantity = "length" // millimetres
	Slope  Quantity = "slope"  // rise over run
	Flow   Quantity = "flow"   // litres per second
	Angle  Quantity = "angle"  // degrees
	Ratio  Quantity = "ratio"  // plain number, shown as a share
	Count  Quantity = "count"  // plain number
	Time   Quantity = "time"   // minutes; only shown
	Speed  Quantity = "speed"  // metres per second; only shown
)

const (
	mmPerInch    = 25.4
	mmPerFoot    = 12 * mmPerInch
	lpsPerGPM    = 3.785411784 / 60 // US gallon, exact by definition
	sixteenthsIn = 16
)

var (
	errEmpty     = errors.New("type a number")
	errNotNumber = errors.New("this is not a number with a unit")
	numberUnit   = regexp.MustCompile(`^([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*([^\d\s].*)?$`)
	feetInches   = regexp.MustCompile(`^([+-])?(?:(\d+(?:\.\d+)?)\s*(?:'|ft|feet|foot))?\s*-?\s*(?:(\d+(?:\.\d+)?)?(?:[\s-]+)?(?:(\d+)\s*/\s*(\d+))?\s*(?:"|''|in|inch|inches)?)$`)
	perFoot      = regexp.MustCompile(`^(.*?)\s*(?:per|/)\s*(?:ft|foot|')$`)
	oneIn        = regexp.MustCompile(`^1\s*(?::|in)\s*(\d+(?:\.\d+)?)$`)
)

// tidy brings typed text to one form: lower case, plain quotes, decimal point.
func tidy(text string) string {
	r := strings.NewReplacer("″", `"`, "”", `"`, "“", `"`, "′", "'", "’", "'", "−", "-", "\u00a0", " ", "½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")
	text = strings.ToLower(strings.TrimSpace(r.Replace(text)))
	// A comma is a decimal mark when it stands once between digits and is not
	// a thousands mark.
	if strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	return text
}

// Parse reads text as a quantity. A bare number is in the system's own unit:
// millimetres or inches, l/min or US gallons a minute; a bare slope is one in
// so many when 2 or more, else rise over run. The error says what to type.
func Parse(text string, q Quantity, s System) (float64, error) {
	t := tidy(text)
	if t == "" {
		return 0, errEmpty
	}
	var v float64
	var err error
	switch q {
	case Length:
		v, err = parseLength(t, s)
	case Slope:
		v, err = parseSlope(t)
	case Flow:
		v, err = parseFlow(t, s)
	case Angle:
		v, err = parseScaled(t, map[string]float64{"": 1, "°": 1, "deg": 1, "degrees": 1, "rad": 180 / math.Pi})
	default:
		v, err = parseScaled(t, map[string]float64{"": 1, "%": 0.01})
	}
	if err != nil {
		return 0, fmt.Errorf("%q: %w", text, err)
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q: %w", text, errNotNumber)
	}
	return v, nil
}

func parseScaled(t string, scale map[string]float64) (float64, error) {
	m := numberUnit.FindStringSubmatch(t)
	if m == nil {
		return 0, errNotNumber
	}
	k, ok := scale[strings.TrimSpace(m[2])]
	if !ok {
		return 0, fmt.Errorf("the unit %q is not known here", strings.TrimSpace(m[2]))
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return 0, errNotNumber
	}
	return v * k, nil
}

func parseLength(t string, s System) (float64, error) {
	bare := 1.0
	if s == Imperial {
		bare = mmPerInch
	}
	if v, err := parseScaled(t, map[string]float64{"": bare, "mm": 1, "cm": 10, "m": 1000, `"`: mmPerInch, "in": mmPerInch, "inch": mmPerInch, "inches": mmPerInch, "'": 12 * mmPerInch, "ft": 12 * mmPerInch}); err == nil {
		return v, nil
	}
	m := feetInches.FindStringSubmatch(t)
	if m == nil || m[2] == "" && m[3] == "" && m[4] == "" {
		return 0, errors.New(`not a length: type for example 120, 12.5 cm, 4 3/4" or 3' 2 1/2"`)
	}
	inches := 0.0
	whole, feet := m[3], m[2]
	// "11/2" without a space can only be a fraction.
	if whole != "" {
		v, _ := strconv.ParseFloat(whole, 64)
		inches += v
	}
	if feet != "" {
		v, _ := strconv.ParseFloat(feet, 64)
		inches += 12 * v
	}
	if m[4] != "" {
		a, _ := strconv.ParseFloat(m[4], 64)
		b, _ := strconv.ParseFloat(m[5], 64)
		if b == 0 {
			return 0, errors.New("the fraction has no denominator")
		}
		inches += a / b
	}
	if m[1] == "-" {
		inches = -inches
	}
	return inches * mmPerInch, nil
}

func parseSlope(t string) (float64, error) {
	if t == "0" || t == "level" {
		return 0, nil
	}
	if m := oneIn.FindStringSubmatch(t); m != nil {
		n, err := strconv.ParseFloat(m[1], 64)
		if err != nil || n <= 0 {
			return 0, errors.New("one in how many? type for example 1:40")
		}
		return 1 / n, nil
	}
	if m := perFoot.FindStringSubmatch(t); m != nil {
		v, err := parseLength(m[1], Imperial)
		return v / (12 * mmPerInch), err
	}
	m := numberUnit.FindStringSubmatch(t)
	if m == nil {
		return 0, errors.New("not a fall: type for example 1:40, 2.5 %, 25 mm/m or 1/4 in/ft")
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return 0, errNotNumber
	}
	switch strings.ReplaceAll(strings.TrimSpace(m[2]), " ", "") {
	case "%":
		return v / 100, nil
	case "mm/m":
		return v / 1000, nil
	case "cm/m":
		return v / 100, nil
	case "°", "deg", "degrees":
		if math.Abs(v) >= 90 {
			return 0, errors.New("a fall is flatter than 90°")
		}
		return math.Tan(v * math.Pi / 180), nil
	case "":
		if v >= 2 {
			return 1 / v, nil
		}
		return v, nil
	}
	return 0, errors.New("not a fall: type for example 1:40, 2.5 %, 25 mm/m or 1/4 in/ft")
}

func parseFlow(t string, s System) (float64, error) {
	bare := 1.0 / 60
	if s == Imperial {
		bare = lpsPerGPM
	}
	return parseScaled(strings.ReplaceAll(t, " /", "/"), map[string]float64{"": bare, "l/s": 1, "lps": 1, "l/min": 1.0 / 60, "lpm": 1.0 / 60, "gpm": lpsPerGPM, "gal/min": lpsPerGPM})
}

// Format writes a quantity with its unit in the given system.
func Format(v float64, q Quantity, s System) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	switch q {
	case Length:
		if s == Imperial {
			return inches(v)
		}
		return trim(v, 1) + " mm"
	case Slope:
		return slope(v, s)
	case Flow:
		if s == Imperial {
			return trim(v/lpsPerGPM, 2) + " gpm"
		}
		return trim(v*60, 1) + " l/min"
	case Angle:
		return trim(v, 1) + "°"
	case Ratio:
		return trim(v*100, 1) + " %"
	case Time:
		return trim(v, 1) + " min"
	case Speed:
		if s == Imperial {
			return trim(v/mmPerFoot*1000, 1) + " ft/s"
		}
		return trim(v, 2) + " m/s"
	default:
		return trim(v, 2)
	}
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

// inches writes millimetres as inches to the nearest sixteenth.
func inches(mm float64) string {
	n := int64(math.Round(math.Abs(mm) / mmPerInch * sixteenthsIn))
	sign := ""
	if mm < 0 && n > 0 {
		sign = "-"
	}
	whole, part := n/sixteenthsIn, n%sixteenthsIn
	if part == 0 {
		return fmt.Sprintf(`%s%d"`, sign, whole)
	}
	den := int64(sixteenthsIn)
	for part%2 == 0 {
		part, den = part/2, den/2
	}
	if whole == 0 {
		return fmt.Sprintf(`%s%d/%d"`, sign, part, den)
	}
	return fmt.Sprintf(`%s%d %d/%d"`, sign, whole, part, den)
}

func slope(v float64, s System) string {
	a := math.Abs(v)
	sign := ""
	if v < 0 {
		sign = "-"
	}
	if a < 5e-5 {
		return "level"
	}
	if s == Imperial {
		return sign + trim(a*12, 3) + " in/ft"
	}
	if a > 1.0/1000 {
		return fmt.Sprintf("%s1:%s (%s mm/m)", sign, trim(1/a, 1), trim(a*1000, 1))
	}
	return sign + trim(a*1000, 1) + " mm/m"
}

// Editable writes a quantity as the user would type it, so that parsing it
// again gives the shown value.
func Editable(v float64, q Quantity, s System) string {
	switch {
	case q == Slope && v > 1.0/1000 && s == Metric:
		return "1:" + trim(1/v, 2)
	case q == Length && s == Metric:
		return trim(v, 2)
	case q == Slope && s == Metric:
		return trim(v*1000, 2) + " mm/m"
	}
	return Format(v, q, s)
}

// Symbol is the unit a bare number of the quantity is taken in.
func Symbol(q Quantity, s System) string {
	switch q {
	case Length:
		if s == Imperial {
			return "in"
		}
		return "mm"
	case Flow:
		if s == Imperial {
			return "gpm"
		}
		return "l/min"
	case Angle:
		return "°"
	case Ratio:
		return "%"
	}
	return ""
}
