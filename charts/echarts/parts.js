// parts.js: the parts of the library that the page draws with. How the build beside it is made from this, README.md tells.
import { use } from 'echarts/core';
import { CustomChart } from 'echarts/charts';
import { GridComponent, TooltipComponent } from 'echarts/components';
import { SVGRenderer } from 'echarts/renderers';

use([CustomChart, GridComponent, TooltipComponent, SVGRenderer]);

export { init, getInstanceByDom } from 'echarts/core';
