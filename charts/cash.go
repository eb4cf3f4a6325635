package charts

import (
	"html/template"
	"math"

	"brimlog/ingest/quantity"
)

// cash writes an amount in the owner's currency: whole from a hundred on, to the hundredth below.
func (l *logbook) cash(x float64) string {
	if !quantity.Known(x) {
		return dash
	}
	decimals := 2
	if math.Abs(x) >= 100 {
		decimals = 0
	}
	sign := ""
	if x < 0 {
		sign, x = minus, -x
	}
	if l.data.Money.Before != "" {
		return sign + l.data.Money.Before + number(x, decimals)
	}
	return sign + number(x, decimals) + l.data.Money.After
}

// unnamed says so where the owner has named no currency: amounts are plain numbers then.
func (l *logbook) unnamed() template.HTML {
	if plain(l.Show.Currency) != "" {
		return ""
	}
	return say("Amounts are in the money of the log; ", template.HTML("<code>vehicle.toml</code>"), " names no currency.")
}

// A currency is what stands before or after an amount.
type currency struct {
	Before string `json:"before"`
	After  string `json:"after"`
}

func currencyOf(code string) currency {
	switch code = plain(code); code {
	case "GBP":
		return currency{Before: "£"}
	case "EUR":
		return currency{Before: "€"}
	case "USD":
		return currency{Before: "$"}
	case "":
		return currency{}
	}
	return currency{After: fastened + code}
}
