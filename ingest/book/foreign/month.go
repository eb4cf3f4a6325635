package foreign

import "strings"

// monthStems are the beginnings of the months' names, folded, in English, German, French, Swedish, Norwegian, Danish, Dutch,
// Spanish, Italian, Portuguese, Polish and Finnish, as CLDR has them. A stem stands for one month alone.
var monthStems = [12]string{
	"jan,januar,janv,ene,enero,gen,gennaio,sty,tammi",
	"feb,fev,febr,lut,helmi",
	"mar,marz,mrz,mars,maart,mrt,maerz,marec,maalis",
	"apr,avr,abr,kwi,huhti",
	"may,mai,maj,mei,mayo,maggio,mag,touko",
	"jun,juin,giu,cze,kesa",
	"jul,juil,lug,lip,heina",
	"aug,aou,ago,sie,elo",
	"sep,set,wrz,syys",
	"oct,okt,ott,out,paz,loka",
	"nov,lis,marras",
	"dec,dez,des,dic,gru,joulu",
}

// monthNamed is the month of a name, 0 where it is none: the longest stem that the name begins with.
func monthNamed(name string) int {
	name = fold(name)
	month, longest := 0, 0
	for i, stems := range monthStems {
		for stem := range strings.SplitSeq(stems, ",") {
			if len(stem) > longest && strings.HasPrefix(name, stem) {
				month, longest = i+1, len(stem)
			}
		}
	}
	return month
}
