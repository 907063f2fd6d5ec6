/**
 * Keeps the ticks of a page on the device that shows it, so that they are still there when a phone has dropped the page; without storage they
 * last as long as the page. `data-evening` keeps one evening's apart from another's.
 */
export const TICKS = [
  "'use strict';",
  '(()=>{',
  "const key='hearthtable '+document.body.querySelector('main').dataset.evening;",
  "const boxes=[...document.querySelectorAll('input[data-call]')];",
  'let kept=[];',
  "try{kept=JSON.parse(localStorage.getItem(key)||'[]')}catch{}",
  'if(!Array.isArray(kept))kept=[];',
  'const counts=()=>{for(const list of document.querySelectorAll("section[data-list]")){',
  'const all=[...list.querySelectorAll("input[data-call]")];',
  'list.querySelector(".count").textContent=all.filter(box=>box.checked).length+" of "+all.length+" done"}};',
  'for(const box of boxes){',
  'if(kept.includes(box.dataset.call))box.checked=true;',
  "box.addEventListener('change',()=>{",
  'const ticked=boxes.filter(one=>one.checked).map(one=>one.dataset.call);',
  'try{localStorage.setItem(key,JSON.stringify([...new Set(ticked)]))}catch{}',
  'counts()})}',
  'counts()',
  '})();',
].join('');
