package book

import "testing"

// What leaves one reading is read, from the owner's file as well as typed, and written without its marks; what leaves two is refused.
func TestMarkedFigures(t *testing.T) {
	for _, c := range []struct{ column, text, want string }{
		{"cost", "£62.10", "62.10"}, {"cost", "62.10 €", "62.10"}, {"cost", "GBP 62.10", "62.10"}, {"cost", "$1,062.10", "1062.10"}, {"cost", "62,10", "62.10"},
		{"cost", "1.062,10 €", "1062.10"}, {"cost", "£6,210", ""}, {"cost", "£", ""}, {"cost", "£6£", "6"},
		{"odometer", "47,900", "47900"}, {"odometer", "47 900", "47900"}, {"odometer", "147'900.4", "147900.4"}, {"odometer", "47900,4", "47900.4"},
		{"odometer", "47,90", ""}, {"odometer", "4,79,00", ""}, {"odometer", "£47900", ""}, {"odometer", "47,900 mi", "47900"},
		{"volume", "39,5", "39.5"}, {"volume", "39,51 l", "39.51"}, {"volume", "0,512", "0.512"}, {"volume", "1,234", ""}, {"volume", "39,512", ""}, {"volume", "£39.5", ""},
	} {
		cells := Cells{"date": "2024-02-11", "odometer": "1", "volume": "1", "cost": "1", c.column: c.text}
		dir := logbook(t, map[string]string{FillsFile: "date,odometer_mi,volume_l,cost\n"})
		_, err := Append(dir, FillsFile, cells)
		if (err != nil) != (c.want == "") {
			t.Errorf("%s %q: %v, want %q", c.column, c.text, err, c.want)
			continue
		}
		if err != nil {
			if _, err := Append(dir, FillsFile, Cells{"date": "2024-02-11", "odometer": "1", "volume": "1", "cost": "1"}); err != nil {
				t.Fatal(err)
			}
		}
		column := map[string]string{"cost": "cost", "odometer": "odometer_mi", "volume": "volume_l"}[c.column]
		if got, _ := rowAt(t, dir, FillsFile, 2).Cell(column); err == nil && got != c.want {
			t.Errorf("%s %q is written %q, want %q", c.column, c.text, got, c.want)
		}
		typed := content(t, dir, FillsFile)
		write(t, dir+"/"+FillsFile, []byte("date,odometer_mi,volume_l,cost\n2024-02-11,"+quoted(orOne(c.column == "odometer", c.text))+","+
			quoted(orOne(c.column == "volume", c.text))+","+quoted(orOne(c.column == "cost", c.text))+"\n"))
		byHand, err := Read(dir)
		if err != nil || (len(byHand.Problems) > 0) != (c.want == "") {
			t.Errorf("%s %q by hand: %v, %v", c.column, c.text, err, byHand.Problems)
		}
		if c.want == "" {
			continue
		}
		write(t, dir+"/"+FillsFile, []byte(typed))
		if b, err := Read(dir); err != nil || b.Fills[0].Odometer != byHand.Fills[0].Odometer || b.Fills[0].Litres != byHand.Fills[0].Litres || b.Fills[0].Cost != byHand.Fills[0].Cost {
			t.Errorf("%s %q reads %+v by hand, %+v as typed", c.column, c.text, byHand.Fills[0], b.Fills[0])
		}
	}
}

func orOne(mine bool, text string) string {
	if mine {
		return text
	}
	return "1"
}
