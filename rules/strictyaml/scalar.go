package strictyaml

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// maxNumberRunes bounds how much of a text an error quotes and how long a number may be: more digits than any instrument
// or price has, and few enough to print.
const maxNumberRunes = 32

// Number reads a plain scalar as a decimal number: digits, with a minus sign before and a decimal point inside if wanted
// (12, -3.5, 0.25). Zero has no sign. Everything else is an error that names the text and a way out; it carries no
// position. Never NaN, never infinite.
func (n *Node) Number() (float64, error) {
	text, err := n.plainText("a number")
	if err != nil {
		return 0, err
	}
	if why := notDecimal(text); why != "" {
		return 0, fmt.Errorf("%s is not a number; %s", shown(text), why)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%s is out of range", shown(text))
	}
	if v == 0 {
		return 0, nil // -0 is written by mistake only
	}
	return v, nil
}

// Bool reads a plain scalar as true or false, written just so. The words yes, no, on and off are words, not booleans.
func (n *Node) Bool() (bool, error) {
	text, err := n.plainText("true or false")
	if err != nil {
		return false, err
	}
	switch text {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	switch strings.ToLower(text) {
	case "true", "yes", "on", "y":
		return false, fmt.Errorf("%s is not true or false; write true", shown(text))
	case "false", "no", "off", "n":
		return false, fmt.Errorf("%s is not true or false; write false", shown(text))
	}
	return false, fmt.Errorf("%s is not true or false", shown(text))
}

func (n *Node) plainText(want string) (string, error) {
	switch {
	case n.Kind() == Refused:
		return "", fmt.Errorf("expected %s", want)
	case n.kind != Scalar:
		return "", fmt.Errorf("expected %s, found %s", want, n.kind)
	case n.Quoted():
		return "", fmt.Errorf("expected %s, found the text %s; take the quotes away", want, shown(n.text))
	case n.text == "":
		return "", errors.New("expected " + want)
	}
	return n.text, nil
}

// notDecimal says why a text is not a decimal number, or returns "".
func notDecimal(text string) string {
	whole, fraction, point := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	switch {
	case len(text) > maxNumberRunes:
		return fmt.Sprintf("at most %d characters", maxNumberRunes)
	case strings.HasPrefix(text, "+"):
		return "leave the plus sign out"
	case strings.Contains(text, "_"):
		return "write the digits without _"
	case point && whole == "" && digits(fraction):
		return "write a zero before the point"
	case point && digits(whole) && fraction == "":
		return "write digits after the point"
	case digits(whole) && len(whole) > 1 && whole[0] == '0':
		return "leave the leading zeros out"
	case !digits(whole) || (point && !digits(fraction)):
		return "write it in decimal digits, as 12 or -3.5"
	}
	return ""
}

func digits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}

// shown quotes a text for a message, cut to a readable length.
func shown(text string) string {
	if r := []rune(text); len(r) > maxNumberRunes {
		text = string(r[:maxNumberRunes]) + "…"
	}
	return strconv.Quote(text)
}
