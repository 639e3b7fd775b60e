package cli

import (
	"strings"

	"rsc.io/qr"
)

// quiet is how many empty modules stand around a code (ISO/IEC 18004, section 9.1).
const quiet = 4

// qrCode draws a text for a camera, two modules high in each character. Without colours it is drawn for light text on a dark
// ground, which is what terminals mostly are.
func qrCode(text string, color bool) (string, error) {
	code, err := qr.Encode(text, qr.L)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		if color {
			out.WriteString("\x1b[97;40m")
		}
		for x := -quiet; x < code.Size+quiet; x++ {
			out.WriteString(module(!code.Black(x, y), !code.Black(x, y+1)))
		}
		if color {
			out.WriteString("\x1b[0m")
		}
		out.WriteByte('\n')
	}
	return out.String(), nil
}

func module(above, below bool) string {
	switch {
	case above && below:
		return "█"
	case above:
		return "▀"
	case below:
		return "▄"
	}
	return " "
}
