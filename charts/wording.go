package charts

import (
	"fmt"
	"math"
	"strings"

	"brimlog/ingest/quantity"
)

// changed writes a change of fuel per distance, in percent: "6.1 % less fuel".
func changed(pct float64) string {
	switch {
	case !quantity.Known(pct):
		return "an unknown amount of fuel"
	case math.Abs(pct) < 0.05:
		return "as much fuel"
	case pct < 0:
		return percent(-pct, 1) + " less fuel"
	}
	return percent(pct, 1) + " more fuel"
}

// changes writes a range of changes: "3.2 to 8.9 % less", "2.1 % less to 4.0 % more". The smaller change stands first.
func changes(low, high float64) string {
	switch {
	case !quantity.Known(low) || !quantity.Known(high):
		return dash
	case high <= 0:
		return number(-high, 1) + " to " + percent(-low, 1) + " less"
	case low >= 0:
		return number(low, 1) + " to " + percent(high, 1) + " more"
	}
	return "from " + percent(-low, 1) + " less to " + percent(high, 1) + " more"
}

// whole makes a range that lies on one side a piece of a sentence too: "anything from 2.1 to 5.0 % more".
func whole(change string) string {
	if strings.HasPrefix(change, "from ") {
		return "anything " + change
	}
	return "anything from " + change
}

// wager is odds for a table, whose heading says what they are for: "120 to 1", "4.1 to 1 against".
func wager(x float64) string {
	switch {
	case !quantity.Known(x) || x <= 0:
		return dash
	case x > 1/1.05 && x < 1.05:
		return "even"
	case x < 1:
		return toOne(1/x) + " against"
	}
	return toOne(x)
}

// toOne writes odds of one and more.
func toOne(x float64) string {
	if x >= 1e6 {
		return "a million to 1 or more"
	}
	return number(x, few(x)) + " to 1"
}

func percent(x float64, decimals int) string {
	if !quantity.Known(x) {
		return dash
	}
	return number(x, decimals) + fastened + "%"
}

// odds is a wager in a sentence: "120 to 1 for a change".
func odds(x float64) string {
	switch w := wager(x); {
	case w == dash || w == "even":
		return w
	case x < 1:
		return w + " a change"
	default:
		return w + " for a change"
	}
}

// few is how many decimals odds deserve.
func few(x float64) int {
	if x < 10 {
		return 1
	}
	return 0
}

// count writes a number of things: "1 tank", "12 tanks".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return number(float64(n), 0) + " " + many
}

// place writes where something stands in the logbook: "fills.csv line 12".
func place(file string, line int) string {
	if line <= 0 {
		return plain(file)
	}
	return fmt.Sprintf("%s line"+fastened+"%d", plain(file), line)
}
