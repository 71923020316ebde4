package quantity

import (
	"math"
	"strconv"
	"strings"
	"time"

	"drillstop/calc"
)

// What a skier can be, generously, both ends included; age in years. Outside
// these a value is a slip of the finger or of the unit. Our own limits, no
// source; a chart's are narrower.
const (
	MinMass   Kilogram   = 8
	MaxMass   Kilogram   = 250
	MinHeight Centimetre = 60
	MaxHeight Centimetre = 230
	MinAge    int        = 2
	MaxAge    int        = 110
)

// ParseMass reads a skier's mass. A bare number is kilograms: "72", "72 kg",
// "165 lb", "11 st 4 lb". Faults: those of Parse, and quantity.mass-range
// outside 8 to 250 kg.
func ParseMass(typed string) (Kilogram, error) {
	v, err := Parse(typed, KG)
	if err != nil {
		return 0, err
	}
	m := Kilogram(v)
	if m < MinMass || m > MaxMass {
		return 0, calc.Faultf("quantity.mass-range", "%s is not a skier's mass: expected %g to %s, or pounds written with lb.", shown(typed, v, KG), float64(MinMass), MaxMass)
	}
	return m, nil
}

// ParseHeight reads a skier's height. A bare number up to 2.3 is metres, any
// other is centimetres: "175", "175 cm", "1.75 m", "1,75", "1 m 75", 5'10",
// "5 ft 10 in". Faults: those of Parse, and quantity.height-range outside 60 to
// 230 cm, which also holds a bare 17.5 or 5.10.
func ParseHeight(typed string) (Centimetre, error) {
	parts, err := scan(typed, longest)
	if err != nil {
		return 0, err
	}
	if len(parts) == 1 && parts[0].word == "" {
		if bare, err := convert(parts[0], Plain, typed); err == nil && bare <= float64(MaxHeight)/100 {
			parts[0].word = "m"
		}
	}
	v, err := join(parts, CM, typed)
	if err != nil {
		return 0, err
	}
	h := Centimetre(v)
	if h < MinHeight || h > MaxHeight {
		return 0, calc.Faultf("quantity.height-range", "%s is not a skier's height: expected %g to %s, or feet and inches such as 5 ft 10 in.", shown(typed, v, CM), float64(MinHeight), MaxHeight)
	}
	return h, nil
}

// ParseAge reads an age in whole years: "34", "34 y", "34 years". Faults: those
// of Parse, quantity.age-date if a date was typed (ParseBirthDate reads those),
// quantity.age-whole for a part of a year, quantity.age-range outside 2 to 110.
func ParseAge(typed string) (int, error) {
	if IsDate(typed) {
		return 0, calc.Faultf("quantity.age-date", "%s is a date: the age in whole years is expected here.", show(typed))
	}
	v, err := Parse(typed, Years)
	if err != nil {
		return 0, err
	}
	if v != math.Trunc(v) {
		return 0, calc.Faultf("quantity.age-whole", "%s is not a whole number of years: type the completed years.", show(typed))
	}
	if v < float64(MinAge) || v > float64(MaxAge) {
		return 0, ageRange(show(typed))
	}
	return int(v), nil
}

// IsDate tells whether the text has the form of a date that ParseBirthDate
// reads, so that a field can take an age or a birth date. It does not say
// whether that day exists.
func IsDate(typed string) bool {
	_, _, _, ok := dateNumbers(clean(typed))
	return ok
}

// ParseBirthDate reads a birth date, year first (1991-04-23) or day first
// (23.4.1991), and the age in completed years on the day of today, in today's
// time zone. born is midnight UTC of the birth date. Someone born on 29 February
// completes a year on 1 March of common years.
//
// Faults: quantity.date for any other form or a day that does not exist,
// quantity.date-future, quantity.age-range for ages outside 2 to 110.
func ParseBirthDate(typed string, today time.Time) (age int, born time.Time, err error) {
	year, month, day, ok := dateNumbers(clean(typed))
	born = time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if !ok || born.Day() != day || int(born.Month()) != month {
		return 0, time.Time{}, calc.Faultf("quantity.date", "%s is not a date: type it as 1991-04-23 or 23.4.1991.", show(typed))
	}
	now := time.Date(today.Year(), today.Month(), today.Day(), 0, 0, 0, 0, time.UTC)
	if born.After(now) {
		return 0, time.Time{}, calc.Faultf("quantity.date-future", "%s lies in the future: today is %s.", show(typed), now.Format(time.DateOnly))
	}
	age = now.Year() - born.Year()
	if now.Month() < born.Month() || (now.Month() == born.Month() && now.Day() < born.Day()) {
		age--
	}
	if age < MinAge || age > MaxAge {
		return 0, time.Time{}, ageRange(show(typed) + " (" + Print(float64(age), Years) + ")")
	}
	return age, born, nil
}

// dateNumbers cuts a date into its three numbers. The year has four digits, so
// that 1.2.03 is never taken for one of its six readings.
func dateNumbers(text string) (year, month, day int, ok bool) {
	fields := strings.Split(text, "-")
	if len(fields) == 1 {
		fields = strings.Split(text, ".")
		if len(fields) == 3 {
			fields[0], fields[2] = fields[2], fields[0]
		}
	}
	if len(fields) != 3 || len(strings.TrimSpace(fields[0])) != 4 {
		return 0, 0, 0, false
	}
	var numbers [3]int
	for i, field := range fields {
		field = strings.TrimSpace(field)
		if digitRun(field) != len(field) || field == "" || len(field) > 4 {
			return 0, 0, 0, false
		}
		n, err := strconv.Atoi(field)
		if err != nil {
			return 0, 0, 0, false
		}
		numbers[i] = n
	}
	return numbers[0], numbers[1], numbers[2], true
}

func ageRange(shown string) error {
	return calc.Faultf("quantity.age-range", "%s is not a skier's age: expected %d to %d years.", shown, MinAge, MaxAge)
}

// shown quotes what was typed, and says what it comes to if that is not the same.
func shown(typed string, v float64, unit Unit) string {
	if comes := Print(v, unit); comes != clean(typed) {
		return show(typed) + " (" + Print(math.Round(v*100)/100, unit) + ")"
	}
	return show(typed)
}
