package stats

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// A tank is written as encoding/json writes it, byte for byte, whatever is in it.
func TestTankAsEncodingJSONHasIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var k Tank
		draw(t, reflect.ValueOf(&k).Elem())
		var want bytes.Buffer
		e := json.NewEncoder(&want)
		e.SetEscapeHTML(false)
		if err := e.Encode(k); err != nil {
			t.Fatal(err)
		}
		if got := string(k.AppendJSON([]byte("before "))) + "\n"; got != "before "+want.String() {
			t.Fatalf("got %swant %s", got, want.String())
		}
	})
}

// draw fills every field, those too that come to a Tank later.
func draw(t *rapid.T, v reflect.Value) {
	figures := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, 1e-7, 1e21, 10.522540983606557, math.NaN(), math.Inf(1)}))
	texts := rapid.OneOf(rapid.StringMatching(`[ -~]*`), rapid.String(), rapid.SampledFrom([]string{"<a & b>", "\"\\\x00\x7f", "\xff", "\u2028"}))
	for i := range v.NumField() {
		switch f := v.Field(i); f.Kind() {
		case reflect.Int:
			f.SetInt(rapid.Int64().Draw(t, "whole"))
		case reflect.Float64:
			f.SetFloat(figures.Draw(t, "figure"))
		case reflect.String:
			f.SetString(texts.Draw(t, "text"))
		case reflect.Struct:
			draw(t, f)
		default:
			t.Fatalf("a field of kind %v", f.Kind())
		}
	}
}
