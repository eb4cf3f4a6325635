#!/bin/sh
# Writes the exports in this folder: one sheet of fills, saved by LibreOffice Calc as CSV in five locales, with the separator
# and the encoding that its people are likely to pick. Run it here; it needs soffice and iconv.
set -eu
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# row DATE ODOMETER VOLUME PRICE FULL NOTE: the figures as the sheet holds them, formatted by the locale when it is saved.
row() {
	printf '<table:table-row><table:table-cell table:style-name="d" office:value-type="date" office:date-value="%s"/>' "$1"
	printf '<table:table-cell table:style-name="whole" office:value-type="float" office:value="%s"/>' "$2"
	printf '<table:table-cell table:style-name="two" office:value-type="float" office:value="%s"/>' "$3"
	printf '<table:table-cell table:style-name="three" office:value-type="float" office:value="%s"/>' "$4"
	text "$5"
	text "$6"
	printf '</table:table-row>\n'
}

text() { printf '<table:table-cell office:value-type="string"><text:p>%s</text:p></table:table-cell>' "$1"; }

words() {
	printf '<table:table-row>'
	for w in "$@"; do text "$w"; done
	printf '</table:table-row>\n'
}

# sheet LANGUAGE COUNTRY TITLE HEADING×6 YES NO TOTAL NOTE
sheet() {
	lang=$1 country=$2 title=$3
	shift 3
	cat <<END
<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0" xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"
 office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:styles><style:default-style style:family="table-cell"><style:text-properties fo:language="$lang" fo:country="$country"/></style:default-style></office:styles>
<office:automatic-styles>
<number:date-style style:name="nd" number:language="$lang" number:country="$country" number:automatic-order="true"><number:day number:style="long"/><number:text>/</number:text><number:month number:style="long"/><number:text>/</number:text><number:year number:style="long"/></number:date-style>
<number:number-style style:name="n0" number:language="$lang" number:country="$country"><number:number number:decimal-places="0" number:min-integer-digits="1" number:grouping="true"/></number:number-style>
<number:number-style style:name="n2" number:language="$lang" number:country="$country"><number:number number:decimal-places="2" number:min-decimal-places="2" number:min-integer-digits="1" number:grouping="true"/></number:number-style>
<number:number-style style:name="n3" number:language="$lang" number:country="$country"><number:number number:decimal-places="3" number:min-decimal-places="3" number:min-integer-digits="1" number:grouping="true"/></number:number-style>
<style:style style:name="d" style:family="table-cell" style:data-style-name="nd"/>
<style:style style:name="whole" style:family="table-cell" style:data-style-name="n0"/>
<style:style style:name="two" style:family="table-cell" style:data-style-name="n2"/>
<style:style style:name="three" style:family="table-cell" style:data-style-name="n3"/>
</office:automatic-styles>
<office:body><office:spreadsheet><table:table table:name="fuel">
END
	words "$title"
	words
	words "$1" "$2" "$3" "$4" "$5" "$6"
	row 2023-02-11 77590 52.31 1.499 "$7" ''
	row 2023-02-19 77938 49.8 1.519 "$7" '=after the long hill'
	row 2023-03-02 78120 20 1.509 "$8" ''
	words "" "" "" "" "" "${10}"
	row 2023-03-05 78311 31.07 1.529 "$7" '-'
	words
	row 2023-03-25 78664 50.45 1.489 "$7" 'café, “quick” stop'
	row 2023-04-08 79011 48.6 1.479 "$7" '@ the coast'
	printf '<table:table-row>'
	text "$9"
	printf '<table:table-cell/><table:table-cell table:style-name="two" table:formula="of:=SUM([.C4:.C11])" office:value-type="float" office:value="252.23"/></table:table-row>\n'
	printf '</table:table></office:spreadsheet></office:body></office:document>\n'
}

# save NAME FILTER: fields, quotes, character set, first row, -, language, quote all text, -, as shown
save() {
	soffice "-env:UserInstallation=file://$work/profile" --headless --convert-to "csv:Text - txt - csv (StarCalc):$2" --outdir "$work" "$work/sheet.fods" >/dev/null 2>&1
	mv "$work/sheet.csv" "$1"
}

comma=44 semicolon=59 tab=9
utf8=76 utf16=65535 windows=1

sheet en GB 'What the estate drank' Date 'Odo (miles)' Litres 'Price/L' 'Brimmed?' Notes yes no Total 'new plugs here' >"$work/sheet.fods"
save en-GB-comma-utf8.csv $comma,34,$utf8,1,,0,false,true,true
sheet en US 'What the estate drank' Date 'Odometer (mi)' 'Fuel (L)' '$/L' 'Full?' Notes Y N Totals 'new plugs here' >"$work/sheet.fods"
save en-US-comma-windows.csv $comma,34,$windows,1,,0,false,true,true
save en-US-tab-utf16.csv $tab,34,$utf16,1,,0,true,true,true
sheet de DE 'Was der Kombi trank' Datum 'Kilometerstand' 'Menge (l)' 'Preis pro Liter' 'Voll?' Bemerkung ja nein Summe 'hier neue Kerzen' >"$work/sheet.fods"
save de-DE-semicolon-windows.csv $semicolon,34,$windows,1,,0,false,true,true
save de-DE-comma-utf8.csv $comma,34,$utf8,1,,0,true,true,true
sheet fr FR 'Ce que le break a bu' Date 'Compteur (km)' Litres 'Prix/L' 'Plein' Remarques oui non Total 'bougies neuves ici' >"$work/sheet.fods"
save fr-FR-semicolon-utf8.csv $semicolon,34,$utf8,1,,0,false,true,true
save fr-FR-semicolon-utf16.csv $semicolon,34,$utf16,1,,0,false,true,true
sheet sv SE 'Vad kombin drack' Datum 'Mätarställning (km)' Liter 'Pris/l' 'Full tank' Anteckning ja nej Summa 'nya stift här' >"$work/sheet.fods"
save sv-SE-tab-utf8.csv $tab,34,$utf8,1,,0,false,true,true
save sv-SE-semicolon-windows.csv $semicolon,34,$windows,1,,0,false,true,true
# Some programs put a byte order mark first; this version of Calc does not, so it is put there by hand.
printf '\357\273\277' | cat - fr-FR-semicolon-utf8.csv >fr-FR-semicolon-utf8-mark.csv
